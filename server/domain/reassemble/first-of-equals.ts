import type { Assignment, CostTable, Prices } from "./assign-most.ts";

/**
 * Chooses among all assignments of the same number and cost the one in which the first row has the first column that
 * it can have, then the second row, and so on; a row rather has a column than none. In an optimum only pairs are used
 * whose cost is exactly the sum of their prices, so every other optimum is reached by exchanges among such pairs.
 */
export function firstOfEquals(table: CostTable, prices: Prices, found: Assignment): Assignment {
  const board = openBoard(table, prices, found);
  for (let row = 0; row < table.rows; row++) settle(board, row);
  return board.columnOf;
}

interface Board {
  readonly rows: number;
  readonly columns: number;
  readonly prices: Prices;
  readonly columnOf: Assignment;
  readonly rowOf: Int32Array;
  /** For each column the rows that may have it in an optimum, one bit a row. */
  readonly rowsFor: Uint32Array;
  readonly words: number;
  /** Rows whose column stands already, one bit a row. */
  readonly settled: Uint32Array;
}

function openBoard({ rows, columns, costs }: CostTable, prices: Prices, found: Assignment): Board {
  const words = Math.ceil(rows / 32);
  const rowsFor = new Uint32Array(columns * words);
  const rowOf = new Int32Array(columns).fill(-1);
  for (let row = 0; row < rows; row++) {
    const column = found[row] ?? -1;
    if (column >= 0) rowOf[column] = row;
    const price = prices.ofRow[row] ?? 0;
    for (let at = 0; at < columns; at++) {
      if (costs[row * columns + at] === price + (prices.ofColumn[at] ?? 0)) setBit(rowsFor, at * words, row);
    }
  }
  const settled = new Uint32Array(words);
  return { rows, columns, prices, columnOf: found.slice(), rowOf, rowsFor, words, settled };
}

/** Gives one row the first column that it can have while the rows before it keep theirs. */
function settle(board: Board, row: number): void {
  const { columns, words, rowsFor, columnOf, settled } = board;
  setBit(settled, 0, row);
  const own = columnOf[row] ?? -1;
  const last = own < 0 ? columns : own;
  const isWanted = (column: number) => hasBit(rowsFor, column * words, row);
  let any = false;
  for (let column = 0; column < last && !any; column++) any = isWanted(column);
  if (!any) return;
  const ways = waysOut(board, own);
  let wanted = 0;
  while (wanted < last && !(ways.canGive[wanted] && isWanted(wanted))) wanted++;
  if (wanted >= last) return;
  exchange(board, ways, row, wanted);
}

/** How the rows of columns can move on when somebody else takes their column. */
interface WaysOut {
  /** 1 for a column whose row can move on, or that nobody has and that may be taken. */
  readonly canGive: Uint8Array;
  /** The column to which a row moves on; -1 for one that then has none. */
  readonly goesTo: Int32Array;
  /** What is free may be taken once this row has moved on and left something free; -1 when something is free anyway. */
  readonly freedBy: number;
}

/**
 * Finds the ways out, walking backwards from the column that a row leaves. Columns that nobody has, and rows that have
 * none, trade among each other too: as many as become free may be taken, if the price of what becomes free is 0.
 */
function waysOut(board: Board, own: number): WaysOut {
  const { rows, columns, words, rowsFor, columnOf, rowOf, prices, settled } = board;
  const canGive = new Uint8Array(columns);
  const goesTo = new Int32Array(rows).fill(-1);
  const seen = settled.slice();
  const queue: number[] = [];
  let isFreeOpen = false;
  let freedBy = -1;
  const reach = (column: number) => {
    if (canGive[column]) return;
    canGive[column] = 1;
    queue.push(column);
  };
  const openFree = (by: number) => {
    if (isFreeOpen) return;
    isFreeOpen = true;
    freedBy = by;
    for (let column = 0; column < columns; column++) if (rowOf[column] === -1) reach(column);
    for (let row = 0; row < rows; row++) {
      const column = columnOf[row] ?? -1;
      if (column < 0 || hasBit(seen, 0, row) || prices.ofRow[row] !== prices.ofNone) continue;
      setBit(seen, 0, row);
      reach(column);
    }
  };
  if (own >= 0) reach(own);
  if (own < 0 || prices.ofColumn[own] === 0) openFree(-1);
  for (let next = 0; next < queue.length; next++) {
    const column = queue[next] ?? 0;
    for (let word = 0; word < words; word++) {
      let open = (rowsFor[column * words + word] ?? 0) & ~(seen[word] ?? 0);
      seen[word] = (seen[word] ?? 0) | open;
      while (open !== 0) {
        const row = word * 32 + 31 - Math.clz32(open & -open);
        open &= open - 1;
        goesTo[row] = column;
        const before = columnOf[row] ?? -1;
        if (before < 0 || prices.ofColumn[before] === 0) openFree(row);
        if (before >= 0) reach(before);
      }
    }
  }
  return { canGive, goesTo, freedBy };
}

/** Gives a row a column and moves on whoever had it, until somebody takes what the first row left, or what is free. */
function exchange(
  { columnOf, rowOf }: Board,
  { goesTo, freedBy }: WaysOut,
  row: number,
  wanted: number,
): void {
  const own = columnOf[row] ?? -1;
  if (own >= 0) rowOf[own] = -1;
  let mover = row;
  let column = wanted;
  while (true) {
    const displaced = column < 0 ? -1 : (rowOf[column] ?? -1);
    columnOf[mover] = column;
    if (column >= 0) rowOf[column] = mover;
    if (column >= 0 && column === own) return;
    mover = displaced >= 0 ? displaced : freedBy;
    if (mover < 0) return;
    if (displaced < 0) {
      const left = columnOf[mover] ?? -1;
      if (left >= 0) rowOf[left] = -1;
    }
    column = goesTo[mover] ?? -1;
  }
}

function setBit(bits: Uint32Array, base: number, at: number): void {
  const word = base + (at >>> 5);
  bits[word] = (bits[word] ?? 0) | (1 << (at & 31));
}

function hasBit(bits: Uint32Array, base: number, at: number): boolean {
  return (((bits[base + (at >>> 5)] ?? 0) >>> (at & 31)) & 1) === 1;
}
