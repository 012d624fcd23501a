/**
 * A page for development, not shipped: the bench, a trail and the parts, filled with invented data.
 * Build it with `npx vite build web/look/sample --config web/vite.config.ts --outDir <folder>`; the fragment picks
 * what is shown (#look, #differs, #issue, #issue-stopped, #trail, #trace,
 * #trace-many, #parts, #forms), `?theme=dark` the theme.
 */
import { render } from "preact";
import { BenchDiffers } from "./bench-differs.tsx";
import { BenchIssue } from "./bench-issue.tsx";
import { BenchLook } from "./bench-look.tsx";
import { FormsPage } from "./forms-page.tsx";
import { PartsPage } from "./parts-page.tsx";
import { TracePage } from "./trace-page.tsx";
import { TrailPage } from "./trail-page.tsx";

function Chosen() {
  switch (location.hash) {
    case "#differs":
      return <BenchDiffers />;
    case "#issue":
      return <BenchIssue stopped={false} />;
    case "#issue-stopped":
      return <BenchIssue stopped />;
    case "#trail":
      return <TrailPage />;
    case "#trace":
      return <TracePage many={false} />;
    case "#trace-many":
      return <TracePage many />;
    case "#forms":
      return <FormsPage />;
    case "#parts":
      return <PartsPage />;
    default:
      return <BenchLook />;
  }
}

const theme = new URLSearchParams(location.search).get("theme");
if (theme !== null) document.documentElement.dataset["theme"] = theme;
const root = document.getElementById("app");
if (root !== null) {
  const show = () => {
    render(null, root);
    render(<Chosen />, root);
  };
  addEventListener("hashchange", show);
  show();
}
