import { describe, expect, test } from "vitest";
import {
  aCleaning,
  aCorrection,
  aFinding,
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
import type { LoadId } from "../ids.ts";
import type { PieceEntry } from "../pieces/piece-entries.ts";
import type { Instant } from "../time.ts";
import { foldStays, stayAt, withCorrections } from "./fold-stays.ts";
import { type Holder, WHEREABOUTS_UNKNOWN } from "./holder.ts";

const [A, B, C, D] = [aRack("A"), aRack("B"), aRack("C"), aRack("D")];
const NAMES = new Map<unknown, string>([A, B, C, D].map((rack, index) => [rack, "ABCD".charAt(index)]));
NAMES.set(WHEREABOUTS_UNKNOWN, "?");

function name(holder: Holder): string {
  for (const [known, letter] of NAMES) if (JSON.stringify(known) === JSON.stringify(holder)) return letter;
  return holder.kind;
}
const minutes = (at: Instant) => String((at - minute(0)) / 60_000);

/** The stays as one line, "A 0–10, B 10–", or the fault with what it names. */
function told(...entries: PieceEntry[]): string {
  const custody = foldStays(withCorrections(recorded(...entries)));
  if ("code" in custody) {
    switch (custody.code) {
      case "before-registered":
        return `version ${custody.version} is before ${minutes(custody.registeredAt)}, when it was registered`;
      case "after-retired":
        return `version ${custody.version} is after ${minutes(custody.retiredAt)}, when it was retired`;
      case "holder-differs":
        return `version ${custody.version} says from ${name(custody.stated)}, on record is ${name(custody.recorded)}`;
    }
  }
  const stays = custody.stays.map(
    (stay) => `${name(stay.holder)} ${minutes(stay.from)}–${stay.to === undefined ? "" : minutes(stay.to)}`,
  );
  const end = custody.retiredAt === undefined ? [] : [`retired ${minutes(custody.retiredAt)}`];
  return [...stays, ...end].join(", ");
}

/** Each row: the case, what was recorded in this order, and what the ledger then says. */
const CASES: readonly (readonly [string, readonly PieceEntry[], string])[] = [
  ["registered and never moved", [aPiece()], "A 0–"],
  ["one move", [aPiece(), aMove(10, A, B)], "A 0–10, B 10–"],
  [
    "a late move before the registration",
    [aPiece({ at: 5 }), aMove(3, A, B)],
    "version 2 is before 5, when it was registered",
  ],
  [
    "a late move inside a stay, to where a later move says it came from: the trail has a hole, so it is refused",
    [aPiece(), aMove(10, A, B), aMove(5, A, C)],
    "version 2 says from A, on record is C",
  ],
  [
    "a late there and back inside a stay",
    [aPiece(), aMove(10, A, B), aMove(4, A, C), aMove(6, C, A)],
    "A 0–4, C 4–6, A 6–10, B 10–",
  ],
  ["a late move after the last one", [aPiece(), aMove(10, A, B), aMove(20, B, C)], "A 0–10, B 10–20, C 20–"],
  [
    "a late move that names the wrong holder to come from",
    [aPiece(), aMove(10, A, B), aMove(20, C, D)],
    "version 3 says from C, on record is B",
  ],
  [
    "of two late moves the one that happened first is recorded first",
    [aPiece(), aFinding(50, B), aMove(20, A, C), aMove(30, C, B)],
    "A 0–20, C 20–30, B 30–",
  ],
  [
    "of two late moves the one that happened first is recorded second: both together fit",
    [aPiece(), aFinding(50, B), aMove(30, C, B), aMove(20, A, C)],
    "A 0–20, C 20–30, B 30–",
  ],
  [
    "of two late moves the second alone does not fit: it says from where the first has not yet brought it",
    [aPiece(), aFinding(50, B), aMove(30, C, B)],
    "version 3 says from C, on record is A",
  ],
  [
    "two late there and back, the earlier recorded first",
    [aPiece(), aMove(20, A, D), aMove(4, A, B), aMove(6, B, A), aMove(10, A, C), aMove(12, C, A)],
    "A 0–4, B 4–6, A 6–10, C 10–12, A 12–20, D 20–",
  ],
  [
    "two late there and back, the later recorded first",
    [aPiece(), aMove(20, A, D), aMove(10, A, C), aMove(12, C, A), aMove(4, A, B), aMove(6, B, A)],
    "A 0–4, B 4–6, A 6–10, C 10–12, A 12–20, D 20–",
  ],
  [
    "the first of two moves is corrected to another time",
    [aPiece(), aMove(10, A, B), aMove(20, B, C), aCorrection(30, 2, aMove(12, A, B))],
    "A 0–12, B 12–20, C 20–",
  ],
  [
    "the first of two moves is corrected to another holder: the second contradicts it",
    [aPiece(), aMove(10, A, B), aMove(20, B, C), aCorrection(30, 2, aMove(10, A, D))],
    "version 3 says from B, on record is D",
  ],
  [
    "both moves are corrected in one act",
    [
      aPiece(),
      aMove(10, A, B),
      aMove(20, B, C),
      aCorrection(30, 2, aMove(10, A, D)),
      aCorrection(30, 3, aMove(20, D, C)),
    ],
    "A 0–10, D 10–20, C 20–",
  ],
  ["the only move is voided", [aPiece(), aMove(10, A, B), aCorrection(30, 2)], "A 0–"],
  [
    "the first of two moves is voided: the second hangs in the air",
    [aPiece(), aMove(10, A, B), aMove(20, B, C), aCorrection(30, 2)],
    "version 3 says from B, on record is A",
  ],
  [
    "a correction is itself corrected",
    [aPiece(), aMove(10, A, B), aCorrection(30, 2, aMove(10, A, C)), aCorrection(40, 3, aMove(11, A, D))],
    "A 0–11, D 11–",
  ],
  [
    "two moves in one minute, in the order in which they were recorded",
    [aPiece(), aMove(10, A, B), aMove(10, B, C)],
    "A 0–10, B 10–10, C 10–",
  ],
  [
    "of two moves in one minute the first is corrected: it keeps its place before the second",
    [aPiece(), aMove(10, A, D), aMove(10, B, C), aCorrection(30, 2, aMove(10, A, B))],
    "A 0–10, B 10–10, C 10–",
  ],
  [
    "there and back within one minute",
    [aPiece(), aMove(10, A, B), aMove(10, B, A)],
    "A 0–10, B 10–10, A 10–",
  ],
  ["a move in the minute of the registration", [aPiece(), aMove(0, A, B)], "A 0–0, B 0–"],
  [
    "found elsewhere: whereabouts are unknown since it was last seen",
    [aPiece(), aFinding(50, B)],
    "A 0–0, ? 0–50, B 50–",
  ],
  [
    "found elsewhere after it was seen at its holder",
    [aPiece(), aFinding(20, A), aFinding(50, B)],
    "A 0–20, ? 20–50, B 50–",
  ],
  [
    "a cleaning and an install are seen too",
    [aPiece(), aCleaning(20), anInstall(30, aPieceId(2)), aFinding(50, B)],
    "A 0–30, ? 30–50, B 50–",
  ],
  [
    "presumed to be there is not seen there",
    [aPiece(), aFinding(20, A, { evidence: "presumed" }), aFinding(50, B)],
    "A 0–0, ? 0–50, B 50–",
  ],
  [
    "found elsewhere in the moment at which it was last seen: no gap",
    [aPiece(), aMove(10, A, B), aFinding(10, C)],
    "A 0–10, B 10–10, C 10–",
  ],
  [
    "found while its whereabouts were unknown",
    [aPiece(), aMove(10, A, WHEREABOUTS_UNKNOWN), aFinding(50, B)],
    "A 0–10, ? 10–50, B 50–",
  ],
  ["found where it is on record", [aPiece(), aFinding(50, A)], "A 0–"],
  [
    "a late finding elsewhere, before a move on record, is refused at that move",
    [aPiece(), aMove(30, A, B), aFinding(20, C)],
    "version 2 says from A, on record is C",
  ],
  [
    "a late finding at the recorded holder narrows the gap of a later one",
    [aPiece(), aFinding(50, B), aFinding(40, A)],
    "A 0–40, ? 40–50, B 50–",
  ],
  [
    "a late move explains the gap of a finding away",
    [aPiece(), aFinding(50, B), aMove(45, A, B)],
    "A 0–45, B 45–",
  ],
  ["retired", [aPiece(), aMove(10, A, B), aRetirement(20)], "A 0–10, B 10–, retired 20"],
  [
    "a late retirement before a move on record is refused at that move",
    [aPiece(), aMove(10, A, B), aRetirement(5)],
    "version 2 is after 5, when it was retired",
  ],
  [
    "a late retirement before an install on record is refused at that install",
    [aPiece(), anInstall(10, aPieceId(2)), aRetirement(5)],
    "version 2 is after 5, when it was retired",
  ],
  [
    "a late move before the retirement",
    [aPiece(), aRetirement(20), aMove(10, A, B)],
    "A 0–10, B 10–, retired 20",
  ],
  [
    "a move after the retirement",
    [aPiece(), aRetirement(20), aMove(30, A, B)],
    "version 3 is after 20, when it was retired",
  ],
  [
    "retired twice",
    [aPiece(), aRetirement(20), aRetirement(30)],
    "version 3 is after 20, when it was retired",
  ],
  [
    "a retired piece found in the field stays retired, and its finding is kept",
    [aPiece(), aRetirement(20), aFinding(30, B)],
    "A 0–0, ? 0–30, B 30–, retired 20",
  ],
  [
    "a voided retirement lets it move again",
    [aPiece(), aRetirement(20), aCorrection(25, 2), aMove(30, A, B)],
    "A 0–30, B 30–",
  ],
];

describe("the worked table of custody", () => {
  test.each(CASES)("%s", (_, entries, expected) => {
    expect(told(...entries)).toBe(expected);
  });
});

test("a stay says by which evidence and which entry it began, and which ended it", () => {
  const custody = foldStays(
    recorded(aPiece({ evidence: "imported" }), aMove(10, A, aMember()), aFinding(50, B)),
  );
  if ("code" in custody) throw new Error(custody.code);
  expect(
    custody.stays.map(({ evidence, fromVersion, toVersion }) => [evidence, fromVersion, toVersion]),
  ).toEqual([
    ["imported", 1, 2],
    ["scanned", 2, 3],
    ["scanned", 3, 3],
    ["scanned", 3, undefined],
  ]);
});

test("at a change of holder the later one holds; a stay without length never does", () => {
  const custody = foldStays(recorded(aPiece(), aMove(10, A, B), aMove(10, B, C)));
  if ("code" in custody) throw new Error(custody.code);
  const at = (count: number) => {
    const stay = stayAt(custody.stays, minute(count));
    return stay && name(stay.holder);
  };
  expect([at(-1), at(0), at(9), at(10), at(11)]).toEqual([undefined, "A", "A", "C", "C"]);
});

test("a stay knows the load with which a piece was put in a machine, and the next stay does not", () => {
  const load = "01950000-0000-7000-8000-00000000000f" as LoadId;
  const [rack, washer] = [aRack("A"), aRack("W")];
  const custody = foldStays(
    recorded(aPiece(), aMove(10, rack, washer, { load, purpose: "load" }), aMove(60, washer, rack)),
  );
  expect("stays" in custody && custody.stays.map((stay) => stay.load)).toEqual([undefined, load, undefined]);
});
