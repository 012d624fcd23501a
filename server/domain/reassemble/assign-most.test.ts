import fc from "fast-check";
import computeMunkres from "munkres-js";
import { describe, expect, test } from "vitest";
import { type Assignment, assignMost, type CostTable } from "./assign-most.ts";

const NEVER = Number.POSITIVE_INFINITY;

function aTable(costs: readonly (readonly number[])[]): CostTable {
  const columns = costs[0]?.length ?? 0;
  return { rows: costs.length, columns, costs: Float64Array.from(costs.flat()) };
}

const costOf = ({ columns, costs }: CostTable, found: Assignment) =>
  found.reduce((sum, column, row) => (column < 0 ? sum : sum + (costs[row * columns + column] ?? NEVER)), 0);
const countOf = (found: Assignment) => found.filter((column) => column >= 0).length;

/** Every assignment there is, tried one after the other; the best by count, cost, pairs kept, then the first. */
function bruteForce(table: CostTable, shown: Assignment | undefined): number[] {
  const { rows, columns, costs } = table;
  let best: { key: number[]; found: number[] } | undefined;
  const better = (key: number[], than: number[]) => {
    const at = key.findIndex((value, place) => value !== than[place]);
    return at >= 0 && (key[at] ?? 0) < (than[at] ?? 0);
  };
  const walk = (row: number, found: number[], cost: number, kept: number) => {
    if (row === rows) {
      const count = found.filter((column) => column >= 0).length;
      const order = found.map((column) => (column < 0 ? columns : column));
      const key = [-count, cost, shown ? -kept : 0, ...order];
      if (!best || better(key, best.key)) best = { key, found };
      return;
    }
    walk(row + 1, [...found, -1], cost, kept);
    for (let column = 0; column < columns; column++) {
      const one = costs[row * columns + column] ?? NEVER;
      if (one === NEVER || found.includes(column)) continue;
      walk(row + 1, [...found, column], cost + one, kept + (shown?.[row] === column ? 1 : 0));
    }
  };
  walk(0, [], 0, 0);
  return best?.found ?? [];
}

const smallTable = (most: number) =>
  fc.record({ rows: fc.integer({ min: 1, max: 5 }), columns: fc.integer({ min: 1, max: 5 }) }).chain((size) =>
    fc.array(
      fc.array(fc.oneof(fc.integer({ min: 0, max: most }), fc.constant(NEVER)), {
        minLength: size.columns,
        maxLength: size.columns,
      }),
      { minLength: size.rows, maxLength: size.rows },
    ),
  );

describe("assigning as many as can be at the least cost", () => {
  test("gives the one among all assignments that trying each of them finds", () => {
    // Few different costs make many equals, so that the order among equals is tested too.
    fc.assert(
      fc.property(fc.oneof(smallTable(2), smallTable(30)), (costs) => {
        const table = aTable(costs);
        expect([...assignMost(table)]).toEqual(bruteForce(table, undefined));
      }),
      { numRuns: 3000 },
    );
  });

  test("keeps as many of the pairs that were shown as it can, as trying each assignment does", () => {
    fc.assert(
      fc.property(
        smallTable(3),
        fc.array(fc.integer({ min: -1, max: 4 }), { minLength: 5, maxLength: 5 }),
        (costs, shown) => {
          const table = aTable(costs);
          const before = Int32Array.from(shown.slice(0, table.rows));
          expect([...assignMost(table, before)]).toEqual(bruteForce(table, before));
        },
      ),
      { numRuns: 3000 },
    );
  });

  test("changes shown pairs only where one more column adds a pair or lowers the cost", () => {
    fc.assert(
      fc.property(smallTable(2), (costs) => {
        const whole = aTable(costs);
        const without = aTable(costs.map((row) => row.slice(0, -1)));
        if (without.columns === 0) return;
        const shown = assignMost(without);
        const now = assignMost(whole, shown);
        const isBetter = countOf(now) > countOf(shown) || costOf(whole, now) < costOf(without, shown);
        if (!isBetter) expect([...now]).toEqual([...shown]);
      }),
      { numRuns: 2000 },
    );
  });

  test("rather leaves nobody over than saves cost", () => {
    const table = aTable([
      [0, 1000],
      [0, NEVER],
    ]);
    expect([...assignMost(table)]).toEqual([1, 0]);
  });

  test("costs as much as the library munkres-js finds, on squares of 120", () => {
    fc.assert(
      fc.property(fc.infiniteStream(fc.integer({ min: 0, max: 5000 })), (numbers) => {
        const costs = Array.from({ length: 120 }, () => [...numbers.take(120)]);
        const table = aTable(costs);
        const theirs = computeMunkres(costs.map((row) => [...row]));
        const theirCost = theirs.reduce((sum, [row, column]) => sum + (costs[row]?.[column] ?? NEVER), 0);
        const ours = assignMost(table);
        expect([countOf(ours), costOf(table, ours)]).toEqual([120, theirCost]);
      }),
      { numRuns: 5 },
    );
  });

  test("finds as many pairs and as little cost as the library munkres-js where most pairs are forbidden", () => {
    const forbidden = 1_000_000;
    const cell = fc.oneof(
      { arbitrary: fc.constant(forbidden), weight: 9 },
      { arbitrary: fc.integer({ min: 0, max: 300 }), weight: 1 },
    );
    fc.assert(
      fc.property(fc.infiniteStream(cell), (cells) => {
        const costs = Array.from({ length: 60 }, () => [...cells.take(60)]);
        const theirs = computeMunkres(costs.map((row) => [...row]))
          .map(([row, column]) => costs[row]?.[column] ?? NEVER)
          .filter((cost) => cost !== forbidden);
        const table = aTable(costs.map((row) => row.map((cost) => (cost === forbidden ? NEVER : cost))));
        const ours = assignMost(table);
        const theirCost = theirs.reduce((sum, cost) => sum + cost, 0);
        expect([countOf(ours), costOf(table, ours)]).toEqual([theirs.length, theirCost]);
      }),
      { numRuns: 10 },
    );
  });

  test("takes 500 shells and 500 liners, also where all cost the same and where exchanges are longest", () => {
    const square = (cost: (row: number, column: number) => number): CostTable => {
      const costs = Float64Array.from({ length: 250_000 }, (_, at) => cost(Math.floor(at / 500), at % 500));
      return { rows: 500, columns: 500, costs };
    };
    expect([...assignMost(square(() => 7))]).toEqual(Array.from({ length: 500 }, (_, row) => row));
    // The larger cost meets the smaller: the classic table on which each added row moves all before it.
    const longest = assignMost(square((row, column) => (row + 1) * (column + 1)));
    expect([...longest]).toEqual(Array.from({ length: 500 }, (_, row) => 499 - row));
  });

  test("refuses costs that a sum could not hold exactly", () => {
    expect(() => assignMost(aTable([[2 ** 52, 1]]))).toThrow("too large");
  });
});
