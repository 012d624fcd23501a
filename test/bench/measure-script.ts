import fs from "node:fs";
import path from "node:path";
import { gzipSync } from "node:zlib";
import { buildPages } from "../../web/build-pages.mjs";
import { ROOT } from "./bench-house.ts";
import type { Figure, Measured } from "./figures.ts";

const BUDGET_KB = 120;
const DIST = path.join(ROOT, "web/dist");

/** Script that the first page asks for, and all that it cannot run without; what is fetched later is told apart. */
export function measureScript(): Measured {
  const failure = buildPages(process.execPath);
  if (failure) throw new Error(failure);
  const page = fs.readFileSync(path.join(DIST, "index.html"), "utf8");
  const first = [...page.matchAll(/(?:src|href)="\/(assets\/[^"]+\.js)"/g)].map(([, file]) => file as string);
  if (first.length === 0) throw new Error("The page asks for no script.");
  const sent = new Set<string>();
  for (const file of first) addWithImports(file, sent);
  const later = fs
    .readdirSync(path.join(DIST, "assets"))
    .map((name) => `assets/${name}`)
    .filter((file) => /\.(js|wasm)$/.test(file) && !sent.has(file));
  const figure: Figure = {
    ...{ what: "script sent for the bench, compressed", value: kilobytes([...sent]), unit: "kB" },
    target: { is: "at most", value: BUDGET_KB },
    note: `${sent.size} file(s); the camera and its decoder, fetched when it is opened, are ${Math.round(kilobytes(later))} kB`,
  };
  return { part: "script", figures: [figure] };
}

/** Follows `import … from "./x.js"`, which the browser fetches before it runs anything; `import()` it does not. */
function addWithImports(file: string, sent: Set<string>): void {
  if (sent.has(file)) return;
  sent.add(file);
  const text = fs.readFileSync(path.join(DIST, file), "utf8");
  for (const [, name] of text.matchAll(/(?:from|import)\s*"\.\/([^"]+\.js)"/g)) {
    addWithImports(path.posix.join(path.posix.dirname(file), name as string), sent);
  }
}

function kilobytes(files: readonly string[]): number {
  const bytes = files.map((file) => gzipSync(fs.readFileSync(path.join(DIST, file)), { level: 9 }).length);
  return bytes.reduce((sum, each) => sum + each, 0) / 1_000;
}
