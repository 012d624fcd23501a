import fc from "fast-check";
import { expect, test } from "vitest";
import {
  aCorrection,
  anInstall,
  aPiece,
  aPieceId,
  aSeparation,
  foundFitted,
  minute,
  recorded,
} from "../../../test/kit/builders/piece-entries.ts";
import { withCorrections } from "../custody/fold-stays.ts";
import type { PieceEntry } from "../pieces/piece-entries.ts";
import { foldFittings } from "./fold-fittings.ts";

const X = aPieceId(101);
const Y = aPieceId(102);

/** The fittings as one line, "X 10–20, Y 20–", or the fault with what it names. */
function told(...entries: PieceEntry[]): string {
  const fittings = foldFittings(withCorrections(recorded(aPiece(), ...entries)));
  if ("code" in fittings)
    return `version ${fittings.version} ${fittings.code} ${fittings.shell === X ? "X" : "Y"}`;
  const minutes = (at: number) => (at - minute(0)) / 60_000;
  return fittings
    .map(
      ({ shell, from, to }) =>
        `${shell === X ? "X" : "Y"} ${minutes(from)}–${to === undefined ? "" : minutes(to)}`,
    )
    .join(", ");
}

const CASES: readonly (readonly [string, readonly PieceEntry[], string])[] = [
  ["never fitted", [], ""],
  ["installed", [anInstall(10, X)], "X 10–"],
  ["installed and separated", [anInstall(10, X), aSeparation(20, X)], "X 10–20"],
  [
    "separated and installed in another in one minute",
    [anInstall(10, X), aSeparation(20, X), anInstall(20, Y)],
    "X 10–20, Y 20–",
  ],
  ["installed while fitted in another", [anInstall(10, X), anInstall(20, Y)], "version 3 already-fitted X"],
  ["installed twice in the same shell", [anInstall(10, X), anInstall(20, X)], "version 3 already-fitted X"],
  [
    "separated from a shell that it is not in",
    [anInstall(10, X), aSeparation(20, Y)],
    "version 3 not-fitted-there Y",
  ],
  ["separated when it is in none", [aSeparation(20, X)], "version 2 not-fitted-there X"],
  ["found fitted where it is on record", [anInstall(10, X), foundFitted(20, X)], "X 10–"],
  [
    "found fitted in another: the record of the first ends there",
    [anInstall(10, X), foundFitted(20, Y)],
    "X 10–20, Y 20–",
  ],
  ["found fitted when it was in none on record", [foundFitted(20, Y)], "Y 20–"],
  [
    "a late separation and install before a later one on record",
    [anInstall(10, X), aSeparation(20, X), anInstall(30, Y)],
    "X 10–20, Y 30–",
  ],
  [
    "recorded late, in any order, when together they fit",
    [anInstall(30, Y), aSeparation(20, X), anInstall(10, X)],
    "X 10–20, Y 30–",
  ],
  [
    "a late separation before the install that it ends",
    [anInstall(10, X), aSeparation(5, X)],
    "version 3 not-fitted-there X",
  ],
  [
    "a late install inside a fitting on record",
    [anInstall(10, X), anInstall(15, Y)],
    "version 3 already-fitted X",
  ],
  ["an install that is voided", [anInstall(10, X), aCorrection(20, 2)], ""],
  [
    "an install that is corrected to another time",
    [anInstall(10, X), aCorrection(20, 2, anInstall(12, X))],
    "X 12–",
  ],
  [
    "an install corrected in the minute in which it was separated keeps its place before the separation",
    [anInstall(10, Y), aSeparation(10, X), aCorrection(20, 2, anInstall(10, X))],
    "X 10–10",
  ],
];

test.each(CASES)("the worked table of fittings: %s", (_, entries, expected) => {
  expect(told(...entries)).toBe(expected);
});

test("fittings of one layer never overlap and at most one is open, whatever is recorded in whatever order", () => {
  const fact = fc.tuple(
    fc.constantFrom(anInstall, aSeparation, foundFitted),
    fc.nat(20),
    fc.constantFrom(X, Y),
  );
  fc.assert(
    fc.property(fc.array(fact, { maxLength: 12 }), (facts) => {
      let taken: PieceEntry[] = [aPiece()];
      for (const [make, at, shell] of facts) {
        const next = [...taken, make(at, shell)];
        if (!("code" in foldFittings(recorded(...next)))) taken = next;
      }
      const fittings = foldFittings(recorded(...taken));
      if ("code" in fittings) throw new Error(fittings.code);
      fittings.forEach((fitting, index) => {
        const next = fittings[index + 1];
        if (next) expect(fitting.to).toBeLessThanOrEqual(next.from);
        if (fitting.to !== undefined) expect(fitting.from).toBeLessThanOrEqual(fitting.to);
      });
      expect(fittings.slice(0, -1).every((fitting) => fitting.to !== undefined)).toBe(true);
    }),
  );
});
