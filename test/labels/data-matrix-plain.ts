/**
 * A plain second way to read a Data Matrix grid, for checking the writer: placement as in ISO/IEC 16022 annex F,
 * Reed-Solomon over GF(256) with 0x12D as in annex E. One region only, sides 10 to 26.
 */
export interface Grid {
  readonly size: number;
  readonly dark: readonly boolean[];
}

/** Takes the codewords out of a grid, data first, then error correction. */
export function codewordsOfGrid({ size, dark }: Grid): readonly number[] {
  const side = size - 2;
  const placed = placeModules(side);
  const codewords: number[] = [];
  for (const [index, place] of placed.entries()) {
    if (place === undefined) continue;
    const isSet = dark[(Math.floor(index / side) + 1) * size + (index % side) + 1] === true;
    codewords[place.codeword] = (codewords[place.codeword] ?? 0) | (isSet ? 1 << (7 - place.bit) : 0);
  }
  return codewords;
}

/** Computes the error correction codewords of data: roots a^1 to a^count. */
export function reedSolomon(data: readonly number[], count: number): readonly number[] {
  let generator: readonly number[] = [1];
  for (let power = 1; power <= count; power += 1) {
    const root = powerOfTwo(power);
    const shorter = generator;
    generator = Array.from(
      { length: power + 1 },
      (_, at) => (shorter[at] ?? 0) ^ multiply(root, shorter[at - 1] ?? 0),
    );
  }
  const rest = [...data, ...Array.from({ length: count }, () => 0)];
  for (let at = 0; at < data.length; at += 1) {
    const lead = rest[at] ?? 0;
    for (const [offset, term] of generator.entries())
      rest[at + offset] = (rest[at + offset] ?? 0) ^ multiply(term, lead);
  }
  return rest.slice(data.length);
}

function multiply(a: number, b: number): number {
  let product = 0;
  for (let bit = 0; bit < 8; bit += 1) {
    product <<= 1;
    if (product & 0x100) product ^= 0x12d;
    if ((b >> (7 - bit)) & 1) product ^= a;
  }
  return product;
}

function powerOfTwo(power: number): number {
  let value = 1;
  for (let step = 0; step < power; step += 1) value = multiply(value, 2);
  return value;
}

type Place = { readonly codeword: number; readonly bit: number };

function placeModules(side: number): readonly (Place | undefined)[] {
  const grid: (Place | undefined)[] = Array.from({ length: side * side });
  let codeword = 0;
  const set = (row: number, column: number, bit: number) => {
    let [r, c] = [row, column];
    if (r < 0) [r, c] = [r + side, c + 4 - ((side + 4) % 8)];
    if (c < 0) [r, c] = [r + 4 - ((side + 4) % 8), c + side];
    grid[r * side + c] = { codeword, bit };
  };
  const corner = (cells: readonly (readonly [number, number])[]) => {
    for (const [bit, [r, c]] of cells.entries()) set(r < 0 ? r + side : r, c < 0 ? c + side : c, bit);
    codeword += 1;
  };
  const utah = (row: number, column: number) => {
    if (row < 0 || column < 0 || row >= side || column >= side || grid[row * side + column]) return;
    for (const [bit, [dr, dc]] of UTAH.entries()) set(row + dr, column + dc, bit);
    codeword += 1;
  };
  let [row, column] = [4, 0];
  do {
    if (row === side && column === 0) corner(CORNERS.first);
    if (row === side - 2 && column === 0 && side % 4 !== 0) corner(CORNERS.second);
    if (row === side - 2 && column === 0 && side % 8 === 4) corner(CORNERS.third);
    if (row === side + 4 && column === 2 && side % 8 === 0) corner(CORNERS.fourth);
    do {
      utah(row, column);
      [row, column] = [row - 2, column + 2];
    } while (row >= 0 && column < side);
    [row, column] = [row + 1, column + 3];
    do {
      utah(row, column);
      [row, column] = [row + 2, column - 2];
    } while (row < side && column >= 0);
    [row, column] = [row + 3, column + 1];
  } while (row < side || column < side);
  return grid;
}

const UTAH = [
  [-2, -2],
  [-2, -1],
  [-1, -2],
  [-1, -1],
  [-1, 0],
  [0, -2],
  [0, -1],
  [0, 0],
] as const;
/** Corner shapes; a negative row or column counts from the far edge. */
const CORNERS = {
  first: [
    [-1, 0],
    [-1, 1],
    [-1, 2],
    [0, -2],
    [0, -1],
    [1, -1],
    [2, -1],
    [3, -1],
  ],
  second: [
    [-3, 0],
    [-2, 0],
    [-1, 0],
    [0, -4],
    [0, -3],
    [0, -2],
    [0, -1],
    [1, -1],
  ],
  third: [
    [-3, 0],
    [-2, 0],
    [-1, 0],
    [0, -2],
    [0, -1],
    [1, -1],
    [2, -1],
    [3, -1],
  ],
  fourth: [
    [-1, 0],
    [-1, -1],
    [0, -3],
    [0, -2],
    [0, -1],
    [1, -3],
    [1, -2],
    [1, -1],
  ],
} as const;
