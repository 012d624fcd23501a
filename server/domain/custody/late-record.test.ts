import { describe, expect, test } from "vitest";
import {
  aFinding,
  aMove,
  aPiece,
  aPieceId,
  aRack,
  aRetirement,
  minute,
  recorded,
} from "../../../test/kit/builders/piece-entries.ts";
import type { PieceEntry } from "../pieces/piece-entries.ts";
import { foldPiece, isFault, type PieceFault, type PieceState } from "../pieces/piece-state.ts";
import { backBy, waysOut } from "./late-record.ts";

const [A, B, C] = [aRack("A"), aRack("B"), aRack("C")];

function state(...entries: PieceEntry[]): PieceState {
  const folded = foldPiece(aPieceId(), recorded(aPiece(), ...entries));
  if (isFault(folded)) throw new Error(folded.code);
  return folded;
}
function fault(...entries: PieceEntry[]): PieceFault {
  const folded = foldPiece(aPieceId(), recorded(aPiece(), ...entries));
  if (!isFault(folded)) throw new Error("It fits the record.");
  return folded;
}
const late = { name: "movePieces", at: minute(20), isThereAndBack: false };

describe("a late move that a later one stands against", () => {
  const against = fault(aMove(30, A, B), aMove(20, A, C));

  test("may have gone there and back, may be found here, or the earlier entry corrected", () => {
    expect(waysOut(against, late)).toEqual(["there and back", "found here", "correction"]);
  });

  test("is not offered there and back again when that did not fit either, nor for another act", () => {
    expect(waysOut(against, { ...late, isThereAndBack: true })).toEqual(["found here", "correction"]);
    expect(waysOut(against, { ...late, name: "recordFound" })).toEqual(["found here", "correction"]);
  });

  test("fits once it comes back just before the later one", () => {
    const by = backBy([state(aMove(30, A, B))], minute(20));
    expect(by).toBe(minute(30) - 1);
    const way = [aMove(20, A, C), { ...aMove(30, C, A), at: by ?? minute(0) }];
    expect(state(aMove(30, A, B), ...way).stays.map(({ holder }) => holder)).toEqual([A, C, A, B]);
  });
});

test("what was found where it belongs meanwhile came back before that", () => {
  expect(backBy([state(aFinding(25, A), aMove(30, A, B))], minute(20))).toBe(minute(25) - 1);
});

test("what is nowhere later on record has no way back to presume, and a garment comes back as one", () => {
  expect(backBy([state()], minute(20))).toBeUndefined();
  expect(backBy([state(), state(aMove(40, A, B)), state(aMove(30, A, B))], minute(20))).toBe(minute(30) - 1);
});

test("after a retirement only a correction is offered, before the registration nothing is", () => {
  expect(waysOut(fault(aRetirement(10), aMove(20, A, C)), late)).toEqual(["correction"]);
  expect(waysOut(fault(aMove(-10, A, C)), { ...late, at: minute(-10) })).toEqual([]);
});
