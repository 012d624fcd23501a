import { render } from "preact";
import { createClient } from "./api/client.ts";
import { openDevice } from "./api/device.ts";
import { App } from "./screens/app.tsx";
import { wearTheme } from "./screens/app-menu.tsx";
import "./look/look.css";
import "./screens/screens.css";

wearTheme();
const build = document.querySelector('script[type="module"]')?.getAttribute("src") ?? "screens";
const client = createClient({ device: openDevice(localStorage, Date.now()), appBuild: build.slice(-100) });
const root = document.getElementById("app");
if (root) render(<App client={client} />, root);
