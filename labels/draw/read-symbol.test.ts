import fc from "fast-check";
import { expect, test } from "vitest";
import { drawTagNumber } from "../../server/domain/tags/tag-number.ts";
import { readSymbol } from "./read-symbol.ts";
import { symbolOfNumber } from "./symbol-matrix.ts";

const aNumber = fc
  .infiniteStream(fc.nat({ max: 1_000_000 }))
  .map((stream) => drawTagNumber((below) => (stream.next().value ?? 0) % below));

test("every number that was drawn reads back as itself", () => {
  fc.assert(
    fc.property(aNumber, (number) => {
      expect(readSymbol(symbolOfNumber(number))).toBe(number);
    }),
  );
});

test("a symbol with one module changed, wherever it is, reads as nothing", () => {
  fc.assert(
    fc.property(aNumber, fc.nat({ max: 255 }), (number, at) => {
      const { size, dark } = symbolOfNumber(number);
      const changed = dark.map((isDark, index) => (index === at ? !isDark : isDark));
      // The four modules of the data region that hold no codeword are the only ones that may change unseen: ISO/IEC 16022 F.3.
      const isSpare = [
        at === 13 * 16 + 14,
        at === 14 * 16 + 13,
        at === 13 * 16 + 13,
        at === 14 * 16 + 14,
      ].includes(true);
      expect(isSpare || readSymbol({ size, dark: changed }) === undefined).toBe(true);
    }),
  );
});
