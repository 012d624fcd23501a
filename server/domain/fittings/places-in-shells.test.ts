import { expect, test } from "vitest";
import { aPieceId, minute } from "../../../test/kit/builders/piece-entries.ts";
import { grownTimes, placesTaken, type TimeInShell } from "./places-in-shells.ts";

const [SHELL, FIRST, SECOND, THIRD] = [aPieceId(1), aPieceId(11), aPieceId(12), aPieceId(13)];

function inShell(
  layer: TimeInShell["layer"],
  from: number,
  to?: number,
  layerKind = "coat-liner",
): TimeInShell {
  const ends = to === undefined ? {} : { to: minute(to) };
  return { layer, layerKind, shell: SHELL, from: minute(from), ...ends };
}
const refusedBy = (grown: TimeInShell, ...others: TimeInShell[]) =>
  placesTaken([grown], others).map((refusal) => "by" in refusal && refusal.by);

test("a layer recorded late may not be in a shell while another of its kind was, ended or not", () => {
  expect(refusedBy(inShell(FIRST, 10, 30), inShell(SECOND, 20, 40))).toEqual([SECOND]);
  expect(refusedBy(inShell(FIRST, 10), inShell(SECOND, 20))).toEqual([SECOND]);
  expect(refusedBy(inShell(FIRST, 25, 26), inShell(SECOND, 20, 40))).toEqual([SECOND]);
});

test("layers that follow one another in a minute, other kinds and a time without length have room", () => {
  expect(refusedBy(inShell(FIRST, 10, 20), inShell(SECOND, 20, 40))).toEqual([]);
  expect(refusedBy(inShell(FIRST, 10, 30), inShell(SECOND, 20, 40, "drd"))).toEqual([]);
  expect(refusedBy(inShell(FIRST, 25, 25), inShell(SECOND, 20, 40))).toEqual([]);
});

test("every layer that stands in the way is named, with when it was there where that has ended", () => {
  const refusals = placesTaken([inShell(FIRST, 0)], [inShell(SECOND, 10, 20), inShell(THIRD, 30)]);
  const taken = { code: "place-in-shell-taken", subject: FIRST, shell: SHELL };
  expect(refusals).toEqual([
    { ...taken, by: SECOND, from: minute(10), to: minute(20) },
    { ...taken, by: THIRD },
  ]);
});

test("a fitting that only ends is not asked about, one that begins earlier or lasts longer is", () => {
  const before = [inShell(FIRST, 10, 20)];
  expect(grownTimes(before, [inShell(FIRST, 10, 15)])).toEqual([]);
  expect(grownTimes(before, [inShell(FIRST, 5, 20)])).toHaveLength(1);
  expect(grownTimes(before, [inShell(FIRST, 10)])).toHaveLength(1);
});
