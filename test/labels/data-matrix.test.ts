import fc from "fast-check";
import { expect, test } from "vitest";
import { c40Codewords, encodeText, symbolOfNumber } from "../../labels/draw/symbol-matrix.ts";
import { drawTagNumber } from "../../server/domain/tags/tag-number.ts";
import { codewordsOfGrid, reedSolomon } from "./data-matrix-plain.ts";
import { readDataMatrices } from "./printed-pages.ts";

/** Example of ISO/IEC 16022 annex O: the text 123456. */
const ANNEX_O = {
  data: [142, 164, 186],
  correction: [114, 25, 5, 88, 102],
  bitmap:
    "1010101010 1100101101 1100000100 1100011101 1100001000 1000001111 1110110000 1111011001 1001110100 1111111111",
};

test("ISO/IEC 16022 annex O: the codewords of 123456 and their error correction", () => {
  expect(reedSolomon(ANNEX_O.data, 5)).toEqual(ANNEX_O.correction);
  expect(codewordsOfGrid(encodeText("123456", 10))).toEqual([...ANNEX_O.data, ...ANNEX_O.correction]);
});

test("ISO/IEC 16022 annex O, figure O.2: the bitmap of 123456 is equal module for module", () => {
  const { dark } = encodeText("123456", 10);
  const rows = Array.from({ length: 10 }, (_, row) =>
    dark
      .slice(row * 10, row * 10 + 10)
      .map((isSet) => (isSet ? "1" : "0"))
      .join(""),
  );
  expect(rows.join(" ")).toBe(ANNEX_O.bitmap);
});

test("ISO/IEC 16022, C40: every number is nine codewords, an unlatch and padding, with error correction that holds", () => {
  fc.assert(
    fc.property(fc.infiniteStream(fc.nat(1_000_000)), (stream) => {
      const number = drawTagNumber((n) => (stream.next().value ?? 0) % n);
      const codewords = codewordsOfGrid(symbolOfNumber(number));
      expect(codewords).toHaveLength(24);
      expect(codewords.slice(0, 10)).toEqual(c40Codewords(number));
      expect(unpackC40(codewords.slice(1, 9))).toBe(number);
      // Padding: 129, then 129 scrambled by its place, the twelfth (annex B): 129 + (149 · 12 mod 253) + 1.
      expect(codewords.slice(10, 12)).toEqual([129, 147]);
      expect(codewords.slice(12)).toEqual(reedSolomon(codewords.slice(0, 12), 12));
    }),
    { numRuns: 200 },
  );
});

test("a symbol is read by another library, and so is the one that the encoder would choose itself", async () => {
  const number = drawTagNumber((n) => 7 % n);
  for (const grid of [symbolOfNumber(number), encodeText(number, 16)]) {
    const side = (grid.size + 4) * 4;
    const grey = new Uint8Array(side * side).fill(255);
    for (let at = 0; at < side * side; at += 1) {
      const [x, y] = [Math.floor((at % side) / 4) - 2, Math.floor(at / side / 4) - 2];
      if (x >= 0 && y >= 0 && x < grid.size && y < grid.size && grid.dark[y * grid.size + x]) grey[at] = 0;
    }
    expect(await readDataMatrices({ width: side, height: side, grey }, "zxing-wasm")).toEqual([number]);
  }
});

function unpackC40(codewords: readonly number[]): string {
  let text = "";
  for (let at = 0; at < codewords.length; at += 2) {
    const triple = (codewords[at] ?? 0) * 256 + (codewords[at + 1] ?? 0) - 1;
    for (const value of [Math.floor(triple / 1600), Math.floor(triple / 40) % 40, triple % 40])
      text += String.fromCharCode(value < 14 ? value - 4 + 48 : value - 14 + 65);
  }
  return text;
}
