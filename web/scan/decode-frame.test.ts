import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { beforeAll, describe, expect, test, vi } from "vitest";
import { type Photo, photographCode } from "../../test/kit/photographed-code.ts";
import { decodeFrame, type Frame, halfSize, prepareDecoder } from "./decode-frame.ts";

// Pictures are drawn pixel by pixel: slow on a machine that is busy with other tests.
vi.setConfig({ testTimeout: 60_000 });

const NUMBER = "C7K3F92CXTKK";
const wasm = createRequire(import.meta.url).resolve("zxing-wasm/reader/zxing_reader.wasm");

beforeAll(async () => {
  const file = readFileSync(wasm);
  await prepareDecoder({ bytes: file.buffer.slice(file.byteOffset, file.byteOffset + file.byteLength) });
});

describe("a 16x16 Data Matrix drawn by bwip-js is read by zxing-wasm", () => {
  const photos: Readonly<Record<string, Photo>> = {
    "as printed": {},
    "at 3 pixels a module": { modulePx: 3 },
    "at 10 pixels a module": { modulePx: 10 },
    "faded to a quarter of the contrast": { contrast: 0.25, noise: 6, blurPx: 1 },
    "leaning 40 degrees away": { leanDeg: 40, noise: 8 },
    "out of focus": { blurPx: 2, noise: 6 },
    "in grain": { noise: 25, blurPx: 1 },
  };
  for (const [name, photo] of Object.entries(photos)) {
    test(`${name}, at 11 or more of 12 turns and never as another text`, async () => {
      let right = 0;
      for (let turnDeg = 7; turnDeg < 360; turnDeg += 30) {
        const frame = photographCode("datamatrix", NUMBER, { width: 280, height: 240, ...photo, turnDeg });
        const read = await decodeFrame(frame, false);
        if (read) expect(read.text).toBe(NUMBER);
        if (read) right += 1;
      }
      expect(right).toBeGreaterThanOrEqual(11);
    });
  }
  test("and says what it stood on and how much error correction is left", async () => {
    expect(await decodeFrame(photographCode("datamatrix", NUMBER), false)).toEqual({
      text: NUMBER,
      carrier: "data matrix",
      symbology: "DataMatrix",
      uec: 1,
    });
  });
  test("with less error correction left when part of it is torn away", async () => {
    const torn = photographCode("datamatrix", NUMBER, { modulePx: 10 });
    paint(torn, { left: 345, top: 215, width: 30, height: 30 }, 255);
    const read = await decodeFrame(torn, false);
    expect(read?.text).toBe(NUMBER);
    expect(read?.uec).toBeLessThan(1);
  });
});

describe("a maker's own code is read when linear codes are asked for, and only then", () => {
  for (const [bcid, text, expected] of [
    ["code128", "TX-4471-0032", "TX-4471-0032"],
    ["ean13", "4006381333931", "4006381333931"],
    ["upca", "012345678905", "012345678905"],
    ["code39", "TX-4471", "TX-4471"],
    ["interleaved2of5", "12345670", "12345670"],
    ["gs1-128", "(01)04006381333931", "0104006381333931"],
  ] as const) {
    test(bcid, async () => {
      for (const turnDeg of [0, 6, 180]) {
        const photo = photographCode(bcid, text, {
          width: 640,
          height: 240,
          modulePx: 3,
          noise: 10,
          blurPx: 1,
          turnDeg,
        });
        expect((await decodeFrame(photo, true))?.text).toBe(expected);
        expect(await decodeFrame(photo, false)).toBeUndefined();
      }
    });
  }
});

test("a QR code with a link is read", async () => {
  const link = `HTTPS://T.EXAMPLE.ORG/${NUMBER}`;
  const read = await decodeFrame(photographCode("qrcode", link, { turnDeg: 25, noise: 8 }), false);
  expect(read).toMatchObject({ text: link, carrier: "qr" });
});

test("grain without a code reads as nothing, forty times", async () => {
  for (let seed = 1; seed <= 40; seed += 1) {
    const grain = photographCode("datamatrix", NUMBER, {
      width: 320,
      height: 180,
      contrast: 0,
      noise: 60,
      seed,
    });
    expect(await decodeFrame(grain, true)).toBeUndefined();
  }
});

test("half size averages four pixels and leaves an odd last row and column out", () => {
  const frame: Frame = { width: 3, height: 3, data: new Uint8ClampedArray(36).fill(255) };
  paint(frame, { left: 0, top: 0, width: 1, height: 1 }, 55);
  const half = halfSize(frame);
  expect({ width: half.width, height: half.height }).toEqual({ width: 1, height: 1 });
  expect([...half.data]).toEqual([205, 205, 205, 255]);
});

function paint(
  frame: Frame,
  box: { left: number; top: number; width: number; height: number },
  grey: number,
): void {
  for (let y = box.top; y < box.top + box.height; y += 1) {
    const at = (y * frame.width + box.left) * 4;
    for (let pixel = 0; pixel < box.width; pixel += 1)
      frame.data.fill(grey, at + pixel * 4, at + pixel * 4 + 3);
  }
}
