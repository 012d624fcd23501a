import { assignMost, type CostTable } from "../../server/domain/reassemble/assign-most.ts";
import { planFittings } from "../../server/domain/reassemble/plan-fittings.ts";
import { aBenchList, aCoat, aLiner } from "../kit/builders/bench-list.ts";
import type { Figure, Measured } from "./figures.ts";

const SIDE = 500;
const RUNS = 7;
const BUDGET_MS = 200;

/** Assigns 500 liners to 500 shells: any costs, all equal, the hardest table known, and whole label checks before it. */
export async function measureMatching(): Promise<Measured> {
  const drawn = drawing();
  const tables: readonly (readonly [string, CostTable])[] = [
    ["costs drawn at random", square(() => Math.floor(drawn() * 1_500))],
    ["one cost for all", square(() => 7)],
    [
      "20 sizes, others forbidden",
      square((row, column) => (row % 20 === column % 20 ? drawn() * 1_500 : Infinity)),
    ],
  ];
  const figures = tables.map(([name, table]): Figure => {
    return within(`500 liners in 500 shells, ${name}`, () => assignMost(table));
  });
  const hardest = square((row, column) => (row + 1) * (column + 1));
  const list = aBenchList(
    Array.from({ length: SIDE }, (_, at) => {
      const label = { size: `${40 + 2 * (at % 10)} 32 R` };
      return [aCoat(`S${at}`, label, { washes: at % 17 }), aLiner(`L${at}`, label, { washes: at % 13 })];
    }).flat(),
  );
  return {
    part: "matching",
    figures: [
      ...figures,
      {
        ...median("the hardest table that is known", () => assignMost(hardest)),
        note: "told for comparison",
      },
      {
        ...median("the whole plan of 1,000 pieces", () => planFittings(list)),
        note: "250,000 label checks in it",
      },
    ],
  };
}

function within(what: string, run: () => unknown): Figure {
  return { ...median(what, run), target: { is: "at most", value: BUDGET_MS } };
}

function median(what: string, run: () => unknown): Figure {
  const waits = Array.from({ length: RUNS }, () => {
    const begun = performance.now();
    run();
    return performance.now() - begun;
  }).sort((one, other) => one - other);
  return { what, value: waits[Math.floor(RUNS / 2)] ?? 0, unit: "ms", note: `median of ${RUNS}` };
}

function square(costOf: (row: number, column: number) => number): CostTable {
  const costs = Float64Array.from({ length: SIDE * SIDE }, (_, at) => {
    const cost = costOf(Math.floor(at / SIDE), at % SIDE);
    return cost === Infinity ? cost : Math.floor(cost);
  });
  return { rows: SIDE, columns: SIDE, costs };
}

/** The same numbers at each run, from 0 up to 1. */
function drawing(): () => number {
  let state = 1;
  return () => {
    state = (state * 1_103_515_245 + 12_345) % 2_147_483_648;
    return state / 2_147_483_648;
  };
}
