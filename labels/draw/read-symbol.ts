import type { ModuleGrid } from "./symbol-matrix.ts";

/** Modules a side of the data region of a 16 × 16 symbol, and its codewords. Source: ISO/IEC 16022, table 7. */
const SIDE = 14;
const DATA = 12;
const CORRECTION = 12;
const LATCH_TO_C40 = 230;
const UNLATCH = 254;

/**
 * Reads a 16 × 16 Data Matrix of undamaged modules back into its text, or undefined when a border, a check or a
 * codeword is not as it must be. Written apart from the encoder, so that one checks the other: a print is read back
 * from its own file before anybody may download it. Reads C40 alone, which is what tags carry.
 */
export function readSymbol(grid: ModuleGrid): string | undefined {
  if (grid.size !== SIDE + 2 || !hasBorders(grid)) return undefined;
  const codewords = codewordsOf(grid);
  if (codewords.length !== DATA + CORRECTION || !hasNoSyndrome(codewords)) return undefined;
  return textOf(codewords.slice(0, DATA));
}

/** Solid on the left and below, alternating above and on the right. */
function hasBorders({ size, dark }: ModuleGrid): boolean {
  for (let at = 0; at < size; at += 1) {
    const isEven = at % 2 === 0;
    const [left, below] = [dark[at * size], dark[(size - 1) * size + at]];
    const [above, right] = [dark[at], dark[at * size + size - 1]];
    if (!left || !below || above !== isEven || right !== !isEven) return false;
  }
  return true;
}

type Cell = readonly [row: number, column: number];
const UTAH: readonly Cell[] = [
  [-2, -2],
  [-2, -1],
  [-1, -2],
  [-1, -1],
  [-1, 0],
  [0, -2],
  [0, -1],
  [0, 0],
];
/** The one corner shape that a side of 14 needs, ISO/IEC 16022 figure F.4. */
const CORNER: readonly Cell[] = [
  [SIDE - 3, 0],
  [SIDE - 2, 0],
  [SIDE - 1, 0],
  [0, SIDE - 4],
  [0, SIDE - 3],
  [0, SIDE - 2],
  [0, SIDE - 1],
  [1, SIDE - 1],
];

/** Where each bit of each codeword lies, most significant first. Placement: ISO/IEC 16022, annex F.3. */
const PLACES: readonly (readonly number[])[] = placements();

function placements(): number[][] {
  const taken = new Set<number>();
  const places: number[][] = [];
  const at = (row: number, column: number): number => {
    let [r, c] = [row, column];
    if (r < 0) [r, c] = [r + SIDE, c + 4 - ((SIDE + 4) % 8)];
    if (c < 0) [r, c] = [r + 4 - ((SIDE + 4) % 8), c + SIDE];
    return r * SIDE + c;
  };
  const place = (cells: readonly number[]) => {
    for (const cell of cells) taken.add(cell);
    places.push([...cells]);
  };
  const utah = (row: number, column: number) => {
    const isInside = row >= 0 && column >= 0 && row < SIDE && column < SIDE;
    if (isInside && !taken.has(at(row, column))) place(UTAH.map(([r, c]) => at(row + r, column + c)));
  };
  let [row, column] = [4, 0];
  while (row < SIDE || column < SIDE) {
    if (row === SIDE - 2 && column === 0) place(CORNER.map(([r, c]) => at(r, c)));
    for (; row >= 0 && column < SIDE; row -= 2, column += 2) if (row < SIDE) utah(row, column);
    row += 1;
    column += 3;
    for (; row < SIDE && column >= 0; row += 2, column -= 2) if (row >= 0) utah(row, column);
    row += 3;
    column += 1;
  }
  return places;
}

function codewordsOf({ size, dark }: ModuleGrid): readonly number[] {
  return PLACES.map((cells) =>
    cells.reduce((codeword, cell) => {
      const isDark = dark[(Math.floor(cell / SIDE) + 1) * size + (cell % SIDE) + 1];
      return codeword * 2 + (isDark ? 1 : 0);
    }, 0),
  );
}

/** Whole and undamaged: the codewords as a polynomial have the roots a^1 to a^12. GF(256) over 0x12D, annex E. */
function hasNoSyndrome(codewords: readonly number[]): boolean {
  let root = 1;
  for (let power = 1; power <= CORRECTION; power += 1) {
    root = multiply(root, 2);
    if (codewords.reduce((sum, codeword) => multiply(sum, root) ^ codeword, 0) !== 0) return false;
  }
  return true;
}

function multiply(a: number, b: number): number {
  let product = 0;
  for (let bit = 7; bit >= 0; bit -= 1) {
    product <<= 1;
    if (product & 0x100) product ^= 0x12d;
    if ((b >> bit) & 1) product ^= a;
  }
  return product;
}

/** C40: three symbols in two codewords, digits from 4, letters from 14; then the unlatch and pads that say nothing. */
function textOf(data: readonly number[]): string | undefined {
  if (data[0] !== LATCH_TO_C40) return undefined;
  let text = "";
  for (let at = 1; at + 1 < data.length && data[at] !== UNLATCH; at += 2) {
    const value = (data[at] ?? 0) * 256 + (data[at + 1] ?? 0) - 1;
    for (const symbol of [Math.floor(value / 1600), Math.floor(value / 40) % 40, value % 40]) {
      if (symbol < 4) return undefined;
      text += String.fromCharCode(symbol < 14 ? symbol - 4 + 48 : symbol - 14 + 65);
    }
  }
  return text;
}
