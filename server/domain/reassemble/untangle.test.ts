import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { PieceId } from "../ids.ts";
import type { Pair } from "./bench-list.ts";
import { type ExchangeStep, untangle } from "./untangle.ts";

const SHELLS = ["A", "B", "C", "D"] as readonly string[] as readonly PieceId[];
const LAYERS = ["a", "b", "c", "d"] as readonly string[] as readonly PieceId[];

/** Which layer is in each shell, if any; a layer that is in none lies loose on the bench. */
type Arrangement = readonly (PieceId | undefined)[];

const pairsOf = (arrangement: Arrangement): Pair[] =>
  arrangement.flatMap((layer, at) => (layer ? [{ shell: SHELLS[at] as PieceId, layer }] : []));
const looseIn = (arrangement: Arrangement) => LAYERS.filter((layer) => !arrangement.includes(layer)).length;

function neighbours(now: Arrangement): Arrangement[] {
  return now.flatMap((inside, at) => {
    if (inside) return [now.with(at, undefined)];
    return LAYERS.filter((layer) => !now.includes(layer)).map((layer) => now.with(at, layer));
  });
}

/** The fewest separations and installs, found by trying all of them in order of their number. */
function fewestSteps(from: Arrangement, isDone: (now: Arrangement) => boolean, mostLoose = 4): number {
  let edge = [from];
  const seen = new Set([JSON.stringify(from)]);
  for (let steps = 0; edge.length > 0; steps++) {
    if (edge.some(isDone)) return steps;
    const next = edge.flatMap(neighbours).filter((one) => looseIn(one) <= mostLoose);
    edge = [];
    for (const one of next) {
      const key = JSON.stringify(one);
      if (!seen.has(key)) edge.push(one);
      seen.add(key);
    }
  }
  return Number.POSITIVE_INFINITY;
}

/** Does the steps, and throws where one of them cannot be done with hands. */
function carryOut(
  from: Arrangement,
  steps: readonly ExchangeStep[],
): { end: Arrangement; mostLoose: number } {
  let now = from;
  let mostLoose = looseIn(now);
  for (const { do: act, shell, layer } of steps) {
    const at = SHELLS.indexOf(shell);
    if (act === "separate" && now[at] !== layer) throw new Error(`${layer} is not in ${shell}`);
    if (act === "install" && (now[at] || now.includes(layer)))
      throw new Error(`${layer} cannot go in ${shell}`);
    now = now.with(at, act === "separate" ? undefined : layer);
    mostLoose = Math.max(mostLoose, looseIn(now));
  }
  return { end: now, mostLoose };
}

const arrangement: fc.Arbitrary<Arrangement> = fc
  .tuple(
    fc.shuffledSubarray([...LAYERS], { minLength: 4, maxLength: 4 }),
    fc.array(fc.boolean(), { minLength: 4, maxLength: 4 }),
  )
  .map(([layers, isIn]) => layers.map((layer, at) => (isIn[at] ? layer : undefined)));

describe("setting liners right that went home in a circle", () => {
  test("opens a circle of three at one coat and passes the liners on", () => {
    const now: Arrangement = ["b" as PieceId, "c" as PieceId, "a" as PieceId, undefined];
    const wanted = pairsOf(["a" as PieceId, "b" as PieceId, "c" as PieceId, undefined]);
    expect(
      untangle(pairsOf(now), wanted).map(({ do: act, shell, layer }) => `${act} ${layer} ${shell}`),
    ).toEqual(["separate b A", "separate a C", "install a A", "separate c B", "install c C", "install b B"]);
  });

  test("sets everything right in as few steps as a breadth-first search over all arrangements finds", () => {
    fc.assert(
      fc.property(arrangement, arrangement, (now, goal) => {
        const wanted = pairsOf(goal);
        const steps = untangle(pairsOf(now), wanted);
        const isDone = (one: Arrangement) =>
          goal.every((layer, at) => layer === undefined || one[at] === layer);
        expect(isDone(carryOut(now, steps).end)).toBe(true);
        expect(steps.length).toBe(fewestSteps(now, isDone));
      }),
      { numRuns: 300 },
    );
  });

  test("has as few liners out at once as any list of that length, when all are in circles", () => {
    const circles = fc.shuffledSubarray([...LAYERS], { minLength: 4, maxLength: 4 });
    fc.assert(
      fc.property(circles, (now) => {
        const steps = untangle(pairsOf(now), pairsOf(LAYERS));
        const isDone = (one: Arrangement) => one.every((layer, at) => layer === LAYERS[at]);
        const { mostLoose } = carryOut(now, steps);
        expect(mostLoose).toBeLessThanOrEqual(2);
        if (steps.length > 0) expect(fewestSteps(now, isDone, mostLoose - 1)).toBeGreaterThan(steps.length);
      }),
      { numRuns: 60 },
    );
  });

  test("touches nothing that is right", () => {
    expect(untangle(pairsOf(LAYERS), pairsOf(LAYERS))).toEqual([]);
  });
});
