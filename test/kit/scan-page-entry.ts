import type { ScanEvent } from "../../web/scan/scan-event.ts";
import { openSounds, type Sounds } from "../../web/scan/sounds.ts";
import { listenForWedge } from "../../web/scan/wedge-listener.ts";

declare global {
  interface Window {
    scanPage: { scans: ScanEvent[]; keysSeen: string[]; submits: number; clicks: number; sounds: Sounds };
  }
}

const seen: Window["scanPage"] = { scans: [], keysSeen: [], submits: 0, clicks: 0, sounds: openSounds() };
window.scanPage = seen;
listenForWedge(window).listen((event) => {
  seen.scans.push(event);
  seen.sounds.play("snap");
});
window.addEventListener("keydown", (event) => seen.keysSeen.push(event.key));
document.querySelector("form")?.addEventListener("submit", (event) => {
  event.preventDefault();
  seen.submits += 1;
});
document.querySelector("button")?.addEventListener("click", () => {
  seen.clicks += 1;
});
