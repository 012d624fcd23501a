import { closeSync, openSync, writeSync } from "node:fs";
import type { Frame } from "../../web/scan/decode-frame.ts";

/** Writes frames as a .y4m film (4:2:0, grey), which Chromium plays in a loop as its fake camera. */
export function writeFilm(path: string, frames: readonly Frame[]): void {
  const [first] = frames;
  if (!first) throw new Error("A film needs a frame");
  const file = openSync(path, "w");
  writeSync(file, `YUV4MPEG2 W${first.width} H${first.height} F10:1 Ip A1:1 C420jpeg\n`);
  const chroma = Buffer.alloc((first.width / 2) * (first.height / 2) * 2, 128);
  for (const frame of frames) {
    const luma = Buffer.alloc(frame.width * frame.height);
    for (let index = 0; index < luma.length; index += 1) luma[index] = frame.data[index * 4] ?? 0;
    writeSync(file, "FRAME\n");
    writeSync(file, luma);
    writeSync(file, chroma);
  }
  closeSync(file);
}
