import type { ModuleGrid } from "./symbol-matrix.ts";

export type Point = readonly [x: number, y: number];

/** Unit steps right, down, left, up; with the dark side on the right hand, turning right goes clockwise. */
const STEPS = [
  [1, 0],
  [0, 1],
  [-1, 0],
  [0, -1],
] as const;

/**
 * Traces the outlines of all dark areas, in dots from the symbol's top left corner, every edge drawn `inset` dots
 * inside its module. Outer outlines run clockwise and holes the other way, so one even-odd or non-zero fill draws
 * the symbol. Modules that touch at a corner alone are parted: the inset would cross there otherwise. Why one path
 * and why inset: tag facts 4.1, unit rectangles came out 6-4-6-4 dots in one rasteriser instead of 5-5-5-5.
 */
export function outlineSymbol(grid: ModuleGrid, moduleDots: number, inset: number): readonly Point[][] {
  const { size } = grid;
  const isDark = (x: number, y: number) =>
    x >= 0 && y >= 0 && x < size && y < size && grid.dark[y * size + x] === true;
  /** Top edges of dark modules with light above: each outline has at least one. */
  const tops = new Set<number>();
  for (let y = 0; y < size; y += 1)
    for (let x = 0; x < size; x += 1) if (isDark(x, y) && !isDark(x, y - 1)) tops.add(y * size + x);
  const outlines: Point[][] = [];
  for (const top of tops) {
    outlines.push(
      trace(top % size, Math.floor(top / size), isDark, (x, y) => tops.delete(y * size + x)).map(
        ({ x, y, inX, inY }) => [x * moduleDots + inX * inset, y * moduleDots + inY * inset] as const,
      ),
    );
  }
  return outlines;
}

/** A corner of an outline on the module grid, with the direction in which the inset moves it. */
interface Corner {
  readonly x: number;
  readonly y: number;
  readonly inX: number;
  readonly inY: number;
}

function trace(
  startX: number,
  startY: number,
  isDark: (x: number, y: number) => boolean,
  passTop: (x: number, y: number) => void,
): readonly Corner[] {
  const corners: Corner[] = [];
  let [x, y, heading] = [startX, startY, 0];
  do {
    const [dx, dy] = STEPS[heading] ?? STEPS[0];
    if (heading === 0) passTop(x, y);
    x += dx;
    y += dy;
    const next = turnAt(x, y, heading, isDark);
    if (next !== heading) {
      const [nx, ny] = STEPS[next] ?? STEPS[0];
      // The inside lies to the right of each heading: (−dy, dx).
      corners.push({ x, y, inX: -dy - ny, inY: dx + nx });
    }
    heading = next;
  } while (x !== startX || y !== startY || heading !== 0);
  return corners;
}

/** Keeps the dark side right: turns right where the module ahead on the right is light, left where both are dark. */
function turnAt(x: number, y: number, heading: number, isDark: (x: number, y: number) => boolean): number {
  const [dx, dy] = STEPS[heading] ?? STEPS[0];
  // Of the four modules around the corner, the one ahead on the given side.
  const isDarkAhead = (sideX: number, sideY: number) =>
    isDark(x + (dx + sideX - 1) / 2, y + (dy + sideY - 1) / 2);
  if (!isDarkAhead(-dy, dx)) return (heading + 1) % 4;
  return isDarkAhead(dy, -dx) ? (heading + 3) % 4 : heading;
}
