import { firstOfEquals } from "./first-of-equals.ts";

/** What may come together at which cost: row-major, whole numbers from 0; `Infinity` says never. */
export interface CostTable {
  readonly rows: number;
  readonly columns: number;
  readonly costs: Float64Array;
}

/** The column of each row; -1 for a row that gets none. */
export type Assignment = Int32Array;

/** What the search knows of rows and columns: costs below these sums are impossible in an optimum. */
export interface Prices {
  readonly ofRow: Float64Array;
  /** Never above 0, and 0 for every column that nobody has. */
  readonly ofColumn: Float64Array;
  /** What a row without a column costs. */
  readonly ofNone: number;
}

/**
 * Assigns columns to rows: as many as can be, then at the least total cost, then with as many of the pairs that were
 * `shown` before as can be, then the first rows with the first columns. Exact. Rows are added one by one along a
 * cheapest path of exchanges (shortest augmenting paths: Jonker & Volgenant 1987, Computing 38); a row without a
 * column costs more than all pairs together. Costs times squared rows must stay whole in a double; throws beyond.
 */
export function assignMost(table: CostTable, shown?: Assignment): Assignment {
  const priced = pricedTable(table, shown);
  const { rows, columns } = table;
  const largest = priced.costs.reduce((most, cost) => (cost < Infinity ? Math.max(most, cost) : most), 0);
  const ofNone = (largest + 1) * (Math.min(rows, columns) + 1);
  if (ofNone * (rows + 1) > Number.MAX_SAFE_INTEGER) throw new Error("The costs are too large to be exact.");
  const prices: Prices = { ofRow: new Float64Array(rows), ofColumn: new Float64Array(columns), ofNone };
  const columnOf = new Int32Array(rows).fill(-1);
  const rowOf = new Int32Array(columns).fill(-1);
  for (let row = 0; row < rows; row++) addRow(priced, prices, columnOf, rowOf, row);
  return firstOfEquals(priced, prices, columnOf);
}

/** Counts a pair that was shown as cheaper than one that was not, by less than the smallest difference in cost. */
function pricedTable({ rows, columns, costs }: CostTable, shown: Assignment | undefined): CostTable {
  if (!shown) return { rows, columns, costs };
  const step = Math.min(rows, columns) + 1;
  const priced = costs.map((cost, at) => {
    const isShown = shown[Math.floor(at / columns)] === at % columns;
    return cost * step + (isShown ? 0 : 1);
  });
  return { rows, columns, costs: priced };
}

/** Finds the cheapest path of exchanges that takes one more row in, and walks it. Some row may end with no column. */
function addRow(
  table: CostTable,
  prices: Prices,
  columnOf: Assignment,
  rowOf: Int32Array,
  added: number,
): void {
  const { columns, costs } = table;
  const { ofRow, ofColumn, ofNone } = prices;
  const distance = new Float64Array(columns).fill(Infinity);
  const reachedFrom = new Int32Array(columns).fill(-1);
  /** Columns that the tree has not taken in, in no order: the first `openCount` of it. */
  const open = Int32Array.from({ length: columns }, (_, column) => column);
  let openCount = columns;
  const tree: number[] = [];
  let none = { distance: Infinity, row: added };
  let row = added;
  let reached = 0;
  let end = -1;
  while (true) {
    const offset = reached - (ofRow[row] as number);
    if (offset + ofNone < none.distance) none = { distance: offset + ofNone, row };
    const base = row * columns;
    let nearestAt = -1;
    let least = Infinity;
    let isFree = false;
    for (let at = 0; at < openCount; at++) {
      const column = open[at] as number;
      const through = offset + (costs[base + column] as number) - (ofColumn[column] as number);
      let far = distance[column] as number;
      if (through < far) {
        far = through;
        distance[column] = far;
        reachedFrom[column] = row;
      }
      // Of columns equally near a free one ends the search.
      if (far < least || (far === least && !isFree && far < Infinity && rowOf[column] === -1)) {
        least = far;
        nearestAt = at;
        isFree = rowOf[column] === -1;
      }
    }
    if (nearestAt < 0 || none.distance <= least) break;
    reached = least;
    const nearest = open[nearestAt] as number;
    if (isFree) {
      end = nearest;
      break;
    }
    openCount -= 1;
    open[nearestAt] = open[openCount] as number;
    tree.push(nearest);
    row = rowOf[nearest] as number;
  }
  const whole = end < 0 ? none.distance : reached;
  reprice(prices, tree, distance, rowOf, added, whole);
  walkBack({ columnOf, rowOf, reachedFrom }, end, end < 0 ? none.row : (reachedFrom[end] as number), added);
}

function reprice(
  { ofRow, ofColumn }: Prices,
  tree: readonly number[],
  distance: Float64Array,
  rowOf: Int32Array,
  added: number,
  whole: number,
): void {
  ofRow[added] = (ofRow[added] ?? 0) + whole;
  for (const column of tree) {
    const gain = whole - (distance[column] ?? 0);
    const row = rowOf[column] ?? -1;
    ofColumn[column] = (ofColumn[column] ?? 0) - gain;
    ofRow[row] = (ofRow[row] ?? 0) + gain;
  }
}

interface Walk {
  readonly columnOf: Assignment;
  readonly rowOf: Int32Array;
  readonly reachedFrom: Int32Array;
}

/** Hands each column on the path to the row from which it was reached, from its end to the row that was added. */
function walkBack({ columnOf, rowOf, reachedFrom }: Walk, end: number, last: number, added: number): void {
  let column = end;
  let row = last;
  while (true) {
    const before = columnOf[row] ?? -1;
    columnOf[row] = column;
    if (column >= 0) rowOf[column] = row;
    if (row === added) return;
    column = before;
    row = reachedFrom[column] ?? added;
  }
}
