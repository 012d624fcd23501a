import { describe, expect, test } from "vitest";
import {
  aCleaning,
  aCorrection,
  aHold,
  aMember,
  aMove,
  anInstall,
  aPiece,
  aPieceId,
  aRack,
  aRetirement,
  minute,
  recorded,
} from "../../../test/kit/builders/piece-entries.ts";
import type { Evidence } from "../evidence.ts";
import type { MemberId } from "../ids.ts";
import type { HoldLifted, HowCleaned, PieceAssigned, PieceDescribed, PieceEntry } from "./piece-entries.ts";
import { fittedNow, foldPiece, isFault, type PieceState, standingHolds } from "./piece-state.ts";

const PIECE = aPieceId();
const [A, B] = [aRack("A"), aRack("B")];

function folded(...entries: PieceEntry[]): PieceState {
  const state = foldPiece(PIECE, recorded(...entries));
  if (isFault(state)) throw new Error(`${state.code} at version ${state.version}`);
  return state;
}

function lift(at: number, hold: number): HoldLifted {
  return { kind: "HoldLifted", hold, because: "decided", at: minute(at), evidence: "described" };
}

function describedAt(at: number, facts: Partial<PieceDescribed>): PieceDescribed {
  return { kind: "PieceDescribed", label: {}, file: {}, ...facts, at: minute(at), evidence: "described" };
}

test("a piece that was registered and no more is where it was registered, not yet read and not soiled", () => {
  const state = folded(aPiece());
  expect(state).toMatchObject({ version: 1, holder: A, heldSince: minute(0), reading: "not yet read" });
  expect([state.soiled, state.washes, standingHolds(state), fittedNow(state)]).toEqual([
    false,
    0,
    [],
    undefined,
  ]);
});

test("without a registration there is no piece", () => {
  expect(foldPiece(PIECE, [])).toEqual({ code: "never-registered", version: 0 });
  expect(foldPiece(PIECE, recorded(aMove(10, A, B)))).toMatchObject({
    code: "before-registered",
    version: 1,
  });
});

describe("soiled", () => {
  const soiledMove = aMove(10, aMember(), A, { purpose: "turn in", soiled: true });
  const issued = aMove(5, A, aMember());

  test("since the turn-in, until it is cleaned", () => {
    expect(folded(aPiece(), issued, soiledMove).soiled).toBe(true);
    expect(folded(aPiece(), issued, soiledMove, aCleaning(20))).toMatchObject({ soiled: false, washes: 1 });
  });

  test("a cleaning recorded late does not clean what was soiled after it", () => {
    expect(folded(aPiece(), issued, soiledMove, aCleaning(7))).toMatchObject({ soiled: true, washes: 1 });
  });

  test("a voided cleaning did not clean it", () => {
    const state = folded(aPiece(), issued, soiledMove, aCleaning(20), aCorrection(30, 4));
    expect(state).toMatchObject({ soiled: true, washes: 0 });
  });
});

describe("holds", () => {
  test("one stands until it is lifted, and stays on file", () => {
    const state = folded(aPiece(), aHold(10), aHold(11), lift(20, 2));
    expect(standingHolds(state).map(({ version }) => version)).toEqual([3]);
    expect(state.holds[0]).toMatchObject({ version: 2, liftedAt: minute(20), liftedVersion: 4 });
  });

  test("a lift from a device whose clock is behind lifts it all the same", () => {
    expect(standingHolds(folded(aPiece(), aHold(10), lift(9, 2)))).toEqual([]);
  });

  test("a second lift of the same hold changes nothing", () => {
    expect(folded(aPiece(), aHold(10), lift(20, 2), lift(30, 2)).holds[0]?.liftedVersion).toBe(3);
  });
});

describe("what is told of it", () => {
  test("a later description replaces what it names and keeps the rest; null says that it is unknown after all", () => {
    const state = folded(
      aPiece({ label: { maker: "Tarnholt", size: "46 32 R" } }),
      describedAt(10, { label: { size: null, serial: "T-1" }, reading: "read" }),
    );
    expect(state.label).toEqual({ maker: "Tarnholt", serial: "T-1" });
    expect(state.reading).toBe("read");
  });

  test("a description of an earlier day that is recorded late does not replace a later one", () => {
    const later = describedAt(20, { label: { size: "48" } });
    const earlier = describedAt(10, { label: { size: "46", lot: "L7" } });
    expect(folded(aPiece(), later, earlier).label).toEqual({ size: "48", lot: "L7" });
  });

  test("it is for the member whom the last assignment names, and for none after it was taken back", () => {
    const member = "01950000-0000-7000-8000-00000000000b" as MemberId;
    const assign = (at: number, isFor: boolean): PieceAssigned => ({
      kind: "PieceAssigned",
      assignment: isFor ? { member, set: "front-line" } : null,
      at: minute(at),
      evidence: "described",
    });
    expect(folded(aPiece(), assign(10, true)).assignment?.member).toBe(member);
    expect(folded(aPiece(), assign(10, true), assign(20, false)).assignment).toBeUndefined();
  });
});

test("a fault of custody or fitting is the fault of the piece, with the version that it lies in", () => {
  expect(foldPiece(PIECE, recorded(aPiece(), aMove(10, B, A)))).toMatchObject({
    code: "holder-differs",
    version: 2,
  });
  const twice = recorded(aPiece(), anInstall(10, aPieceId(2)), anInstall(20, aPieceId(3)));
  expect(foldPiece(PIECE, twice)).toMatchObject({ code: "already-fitted", version: 3 });
  expect(foldPiece(PIECE, recorded(aPiece(), aRetirement(10), aMove(20, A, B)))).toMatchObject({
    code: "after-retired",
    version: 3,
  });
});

describe("what cleanings tell of a piece", () => {
  const soiled = (at: number) => aMove(at, aRack("A"), aRack("I"), { soiled: true });
  const cleaned = (at: number, how: HowCleaned, evidence: Evidence = "scanned") => ({
    ...aCleaning(at),
    ...{ how, evidence },
  });
  const fold = (...entries: readonly PieceEntry[]) => folded(aPiece(), ...entries);

  test("a wash ends soil and counts; a rinse at the scene, sanitisation and disinfection do neither", () => {
    const all = (["preliminary exposure reduction", "sanitisation", "disinfection"] as const).map(
      (how, index) => cleaned(20 + index, how),
    );
    expect(fold(soiled(10), ...all)).toMatchObject({ soiled: true, washes: 0, soiledSince: minute(10) });
    const washed = fold(soiled(10), ...all, cleaned(30, "specialised cleaning"));
    expect([washed.soiled, washed.washes, washed.soiledSince]).toEqual([false, 1, undefined]);
  });

  test("a wash from an older list counts and permits nothing: what is soiled stays soiled (design.md 3, rule 5)", () => {
    const state = fold(soiled(10), cleaned(20, "advanced cleaning", "imported"));
    expect([state.soiled, state.washes]).toEqual([true, 1]);
  });

  test("it is wet from when it came in wet until it is moved on", () => {
    const wet = aMove(10, aRack("A"), aRack("I"), { wet: true });
    expect(fold(wet).wet).toBe(true);
    expect(fold(wet, aMove(20, aRack("I"), aRack("B"))).wet).toBe(false);
  });
});
