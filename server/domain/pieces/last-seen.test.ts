import { expect, test } from "vitest";
import {
  aCorrection,
  aMove,
  aPiece,
  aPieceId,
  aRack,
  minute,
  recorded,
} from "../../../test/kit/builders/piece-entries.ts";
import type { PieceEntry } from "./piece-entries.ts";
import { foldPiece, isFault } from "./piece-state.ts";

const [A, B, C] = [aRack("A"), aRack("B"), aRack("C")];

function seenAt(...entries: PieceEntry[]) {
  const state = foldPiece(aPieceId(), recorded(...entries));
  if (isFault(state)) throw new Error(state.code);
  return state.seenAt;
}

test("a piece was last seen when somebody scanned it or typed its number, not when it went along unseen", () => {
  const along = aMove(20, B, C, { evidence: "with its set" });
  expect(seenAt(aPiece({ evidence: "scanned" }), aMove(10, A, B, { evidence: "typed" }), along)).toBe(
    minute(10),
  );
});

test("an imported piece that nobody has handled since was never seen", () => {
  expect(seenAt(aPiece({ evidence: "imported" }))).toBeUndefined();
});

test("a move that was taken back shows the piece at no time", () => {
  const taken = aCorrection(30, 2);
  expect(seenAt(aPiece(), aMove(10, A, B), { ...taken, evidence: "described" })).toBe(minute(0));
});

test("a late record does not make the piece seen any earlier than it was", () => {
  expect(seenAt(aPiece(), aMove(30, A, B), aMove(10, A, A, { purpose: "storage" }))).toBe(minute(30));
});
