import { expect, test } from "vitest";
import { dots, LEAST_MODULE_DOTS, LEAST_MODULE_MM, millimetres, moduleDots, PRINTERS } from "./printer.ts";

test("tag facts 1.3: a millimetre is 8 dots at 203 dpi, 11.81 at 300 and 23.62 at 600", () => {
  expect(dots(50, PRINTERS["203"])).toBe(400);
  expect(dots(50, PRINTERS["300"])).toBe(591);
  expect(dots(50, PRINTERS["600"])).toBe(1_181);
  expect(millimetres(8, PRINTERS["203"])).toBe(1);
});

test("tag facts 1.3: a module is never under 4 dots and never under 0.5 mm, whatever is asked for", () => {
  for (const printer of Object.values(PRINTERS))
    for (const mm of [0.1, 0.25, 0.375, 0.5, 0.593, 0.75, 1, 1.625]) {
      const count = moduleDots(mm, printer);
      expect(Number.isInteger(count)).toBe(true);
      expect(count).toBeGreaterThanOrEqual(LEAST_MODULE_DOTS);
      expect(millimetres(count, printer)).toBeGreaterThanOrEqual(LEAST_MODULE_MM);
    }
  expect(moduleDots(0.1, PRINTERS["203"])).toBe(4);
  expect(moduleDots(0.1, PRINTERS["300"])).toBe(6);
  expect(moduleDots(0.1, PRINTERS["600"])).toBe(12);
});

test("the tag's module of 1 mm is 8, 12 and 24 dots, the card's of 26/16 mm is 13, 19 and 38", () => {
  const all = Object.values(PRINTERS);
  expect(all.map((printer) => moduleDots(1, printer))).toEqual([8, 12, 24]);
  expect(all.map((printer) => moduleDots(26 / 16, printer))).toEqual([13, 19, 38]);
});
