import type { ScanEvent } from "../../web/scan/scan-event.ts";
import { listenForWedge } from "../../web/scan/wedge-listener.ts";

declare global {
  interface Window {
    scanPage: { scans: ScanEvent[]; keysSeen: string[]; delays: number[]; submits: number; clicks: number };
  }
}

const seen: Window["scanPage"] = { scans: [], keysSeen: [], delays: [], submits: 0, clicks: 0 };
window.scanPage = seen;
listenForWedge(window).listen((event) => {
  seen.scans.push(event);
  seen.delays.push(performance.now());
});
window.addEventListener("keydown", (event) => seen.keysSeen.push(event.key));
document.querySelector("form")?.addEventListener("submit", (event) => {
  event.preventDefault();
  seen.submits += 1;
});
document.querySelector("button")?.addEventListener("click", () => {
  seen.clicks += 1;
});
