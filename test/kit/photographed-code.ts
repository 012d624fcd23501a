import bwip from "bwip-js/node";
import type { Frame } from "../../web/scan/decode-frame.ts";

export interface Photo {
  readonly width?: number;
  readonly height?: number;
  /** Pixels a module (the narrowest bar). */
  readonly modulePx?: number;
  readonly turnDeg?: number;
  /** How far the label leans away from the camera. */
  readonly leanDeg?: number;
  /** Standard deviation of the blur, in pixels. */
  readonly blurPx?: number;
  /** Standard deviation of the noise, in grey levels of 255. */
  readonly noise?: number;
  /** 1 is black on white; 0.2 is a faded label. */
  readonly contrast?: number;
  readonly seed?: number;
}

/** A code drawn by bwip-js as it would look in a camera frame: turned, leaning, blurred, noisy and faded. */
export function photographCode(bcid: string, text: string, photo: Photo = {}): Frame {
  const {
    width = 640,
    height = 480,
    modulePx = 6,
    turnDeg = 0,
    leanDeg = 0,
    blurPx = 0,
    noise = 0,
    contrast = 1,
  } = photo;
  const code = modules(bcid, text);
  const random = gaussian(photo.seed ?? 1);
  const turn = (turnDeg * Math.PI) / 180;
  const squeeze = Math.cos((leanDeg * Math.PI) / 180);
  const grey = new Float32Array(width * height);
  for (let y = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1) {
      let dark = 0;
      for (const [dx, dy] of [
        [0.25, 0.25],
        [0.75, 0.25],
        [0.25, 0.75],
        [0.75, 0.75],
      ] as const) {
        const u = (x + dx - width / 2) / modulePx;
        const v = (y + dy - height / 2) / modulePx / squeeze;
        const column = Math.floor(u * Math.cos(turn) + v * Math.sin(turn) + code.columns / 2);
        const row = Math.floor(-u * Math.sin(turn) + v * Math.cos(turn) + code.rows / 2);
        if (code.isDark(column, row)) dark += 0.25;
      }
      grey[y * width + x] = 128 + contrast * (110 - 220 * dark);
    }
  }
  const blurred = blurPx > 0 ? blur(grey, width, height, blurPx) : grey;
  const data = new Uint8ClampedArray(width * height * 4).fill(255);
  for (let index = 0; index < width * height; index += 1) {
    data.fill((blurred[index] ?? 0) + noise * random(), index * 4, index * 4 + 3);
  }
  return { data, width, height };
}

interface Modules {
  readonly columns: number;
  readonly rows: number;
  readonly isDark: (column: number, row: number) => boolean;
}

function modules(bcid: string, text: string): Modules {
  // The types of bwip-js declare each encoder's result as a union of shapes without a tag.
  const [raw] = bwip.raw(bcid, text, bcid === "datamatrix" ? "version=16x16" : "") as Partial<
    Record<"pixs" | "sbs", number[]> & { pixx: number }
  >[];
  if (!raw) throw new Error(`bwip-js drew nothing for ${bcid}`);
  if (raw.pixs && raw.pixx) {
    const { pixs, pixx } = raw;
    const rows = pixs.length / pixx;
    return {
      columns: pixx,
      rows,
      isDark: (column, row) =>
        column >= 0 && column < pixx && row >= 0 && row < rows && pixs[row * pixx + column] === 1,
    };
  }
  const bars = (raw.sbs ?? []).flatMap((run, index) => Array<boolean>(run).fill(index % 2 === 0));
  const rows = 30;
  return {
    columns: bars.length,
    rows,
    isDark: (column, row) => row >= 0 && row < rows && bars[column] === true,
  };
}

function blur(grey: Float32Array, width: number, height: number, sigma: number): Float32Array {
  const reach = Math.ceil(sigma * 3);
  const weights = Array.from({ length: reach * 2 + 1 }, (_, at) =>
    Math.exp(-((at - reach) ** 2) / (2 * sigma ** 2)),
  );
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const pass = (from: Float32Array, step: number, along: number, across: number, stride: number) => {
    const out = new Float32Array(from.length);
    for (let line = 0; line < across; line += 1) {
      for (let at = 0; at < along; at += 1) {
        let sum = 0;
        for (let k = -reach; k <= reach; k += 1) {
          const near = Math.min(along - 1, Math.max(0, at + k));
          sum += (weights[k + reach] ?? 0) * (from[line * stride + near * step] ?? 0);
        }
        out[line * stride + at * step] = sum / total;
      }
    }
    return out;
  };
  return pass(pass(grey, 1, width, height, width), width, height, width, 1);
}

/** Normal noise from a seed (mulberry32, then Box and Muller). */
function gaussian(seed: number): () => number {
  let state = seed;
  const uniform = () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
  return () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
}
