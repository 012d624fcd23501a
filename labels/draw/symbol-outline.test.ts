import fc from "fast-check";
import { expect, test } from "vitest";
import type { ModuleGrid } from "./symbol-matrix.ts";
import { outlineSymbol, type Point } from "./symbol-outline.ts";

const aGrid = (): fc.Arbitrary<ModuleGrid> =>
  fc
    .integer({ min: 1, max: 9 })
    .chain((size) =>
      fc
        .array(fc.boolean(), { minLength: size * size, maxLength: size * size })
        .map((dark) => ({ size, dark })),
    );

/** Even-odd rule by counting the upright edges to the left of a point. */
function isInside(outlines: readonly (readonly Point[])[], x: number, y: number): boolean {
  let crossings = 0;
  for (const outline of outlines)
    for (const [index, [x1, y1]] of outline.entries()) {
      const [x2, y2] = outline[(index + 1) % outline.length] ?? [0, 0];
      if (x1 === x2 && x1 < x && y > Math.min(y1, y2) && y < Math.max(y1, y2)) crossings += 1;
    }
  return crossings % 2 === 1;
}

test("the outline holds every dark module and no light one, up to a quarter dot from its edge", () => {
  fc.assert(
    fc.property(aGrid(), (grid) => {
      const outlines = outlineSymbol(grid, 8, 0.25);
      for (let row = 0; row < grid.size; row += 1)
        for (let column = 0; column < grid.size; column += 1) {
          const isDark = grid.dark[row * grid.size + column] === true;
          for (const [dx, dy] of [
            [4, 4],
            [0.3, 0.3],
            [7.7, 0.3],
            [0.3, 7.7],
            [7.7, 7.7],
          ] as const)
            expect(isInside(outlines, column * 8 + dx, row * 8 + dy)).toBe(isDark);
        }
    }),
  );
});

test("tag facts 4.1: every outer edge of a module lies a quarter dot inside, so that a raster never adds a dot", () => {
  expect(outlineSymbol({ size: 1, dark: [true] }, 5, 0.25)).toEqual([
    [
      [4.75, 0.25],
      [4.75, 4.75],
      [0.25, 4.75],
      [0.25, 0.25],
    ],
  ]);
});

test("modules that touch at a corner alone are two outlines", () => {
  const outlines = outlineSymbol({ size: 2, dark: [true, false, false, true] }, 4, 0.25);
  expect(outlines).toHaveLength(2);
  expect(outlines.map((outline) => outline.length)).toEqual([4, 4]);
});

test("a light module inside dark ones is a hole that is widened, not narrowed", () => {
  const dark = [true, true, true, true, false, true, true, true, true];
  const outlines = outlineSymbol({ size: 3, dark }, 4, 0.25);
  const hole = outlines.find((outline) => outline.every(([x, y]) => x > 2 && x < 10 && y > 2 && y < 10));
  expect(hole && [...hole].sort()).toEqual([
    [3.75, 3.75],
    [3.75, 8.25],
    [8.25, 3.75],
    [8.25, 8.25],
  ]);
});
