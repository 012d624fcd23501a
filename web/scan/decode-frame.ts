import {
  prepareZXingModule,
  type ReaderOptions,
  type ReadInputBarcodeFormat,
  type ReadResult,
  readBarcodes,
} from "zxing-wasm/reader";
import type { Carrier } from "./scan-event.ts";

/** Pixels as ImageData has them: RGBA, row by row, 4 bytes a pixel. */
export interface Frame {
  readonly data: Uint8ClampedArray<ArrayBuffer>;
  readonly width: number;
  readonly height: number;
}
export interface FrameReading {
  readonly text: string;
  readonly carrier: Carrier;
  readonly symbology: string;
  /** Unused error correction, 0 to 1; absent for linear codes. */
  readonly uec?: number;
}

const MATRIX: ReadInputBarcodeFormat[] = ["DataMatrix", "QRCode"];
/** What makers print on their own labels. */
const LINEAR: ReadInputBarcodeFormat[] = ["Code128", "EANUPC", "Code39", "ITF"];
/** Plain text is what a wedge sends for the same code: GS1 data without brackets, its separators kept. */
const ONE: ReaderOptions = {
  textMode: "Plain",
  maxNumberOfSymbols: 1,
  tryDownscale: false,
  tryInvert: false,
};
/**
 * Measured on 1008 x 560 pixels of noise without a code, the dearest case, on the 2-core machine of the README:
 * tryHarder costs 18 of 26 ms and reads no more Data Matrix; without tryRotate only a third is read.
 */
const MATRIX_PASS: ReaderOptions = { ...ONE, formats: MATRIX, tryDenoise: true, tryHarder: false };
/** About 10 ms on the same picture; without tryHarder 1 ms, but narrow bars are then read half as often. */
const LINEAR_PASS: ReaderOptions = { ...ONE, formats: LINEAR };
/** ITF has no end that cannot be cut off: a slanted look yields short false readings. */
const SHORTEST_ITF = 6;

/** Loads the decoder from where it is served, or from bytes. Rejects when it cannot be had. Never asks a CDN. */
export async function prepareDecoder(from: { url: string } | { bytes: ArrayBuffer }): Promise<void> {
  const overrides = "url" in from ? { locateFile: () => from.url } : { wasmBinary: from.bytes };
  await prepareZXingModule({ overrides, fireImmediately: true });
}

/**
 * Reads one code from a frame: as it is and denoised, then at half size, then, if wanted, the linear codes.
 * Half size helps with grain and blur, where the full picture shows too much of the cloth.
 */
export async function decodeFrame(frame: Frame, withLinear: boolean): Promise<FrameReading | undefined> {
  return (
    (await read(frame, MATRIX_PASS)) ??
    (await read(halfSize(frame), MATRIX_PASS)) ??
    (withLinear ? await read(frame, LINEAR_PASS) : undefined)
  );
}

async function read(frame: Frame, options: ReaderOptions): Promise<FrameReading | undefined> {
  const [result] = await readBarcodes(frame as ImageData, options);
  if (!result?.isValid || result.text === "") return undefined;
  if (result.symbology === "ITF" && result.text.length < SHORTEST_ITF) return undefined;
  const uec = unusedErrorCorrection(result);
  return { ...named(result), ...(uec === undefined ? {} : { uec }) };
}

function named({
  symbology,
  format,
  text,
}: ReadResult): Pick<FrameReading, "text" | "carrier" | "symbology"> {
  if (symbology === "DataMatrix") return { text, carrier: "data matrix", symbology: format };
  if (symbology === "QRCode") return { text, carrier: "qr", symbology: format };
  // The same bars are UPC-A (12 digits, as scanners send it) and EAN-13 with a leading zero (as the decoder says).
  const isUpcA = format === "EAN13" && text.length === 13 && text.startsWith("0");
  return isUpcA
    ? { text: text.slice(1), carrier: "linear", symbology: "UPCA" }
    : { text, carrier: "linear", symbology: format };
}

/** `extra` is JSON text and marked experimental in zxing-wasm 3.1: anything unexpected counts as not told. */
function unusedErrorCorrection(result: ReadResult): number | undefined {
  try {
    const extra: unknown = JSON.parse(result.extra);
    const uec =
      typeof extra === "object" && extra !== null && "UEC" in extra ? Number(extra.UEC) : Number.NaN;
    return uec >= 0 && uec <= 1 ? uec : undefined;
  } catch {
    return undefined;
  }
}

/** Averages each 2 by 2 pixels to one grey pixel; an odd last row or column is left out. */
export function halfSize(frame: Frame): Frame {
  const width = frame.width >> 1;
  const height = frame.height >> 1;
  const { data } = frame;
  const row = frame.width * 4;
  const out = new Uint8ClampedArray(width * height * 4);
  for (let y = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1) {
      const from = y * 2 * row + x * 8;
      const grey =
        (lightness(data, from) +
          lightness(data, from + 4) +
          lightness(data, from + row) +
          lightness(data, from + row + 4)) /
        4;
      const to = (y * width + x) * 4;
      out[to] = grey;
      out[to + 1] = grey;
      out[to + 2] = grey;
      out[to + 3] = 255;
    }
  }
  return { data: out, width, height };
}

function lightness(data: Uint8ClampedArray, at: number): number {
  return 0.3 * (data[at] ?? 0) + 0.6 * (data[at + 1] ?? 0) + 0.1 * (data[at + 2] ?? 0);
}
