import { describe, expect, test } from "vitest";
import { aBook, aPieceAfter, aRule, KETTLE_YARD, metAt } from "../../../test/kit/builders/contamination.ts";
import { ANY_ACCOUNT, aMember, aMove, aRack, minute } from "../../../test/kit/builders/piece-entries.ts";
import type { BenchState } from "../bench/bench-state.ts";
import type { MemberId, PlaceId } from "../ids.ts";
import type { PieceEntry } from "../pieces/piece-entries.ts";
import type { PieceState } from "../pieces/piece-state.ts";
import { bagName, bagNumber, nextBagNumbers } from "./bag-name.ts";
import { openBag, sortBag } from "./open-bag.ts";
import { packBag } from "./pack-bag.ts";

const bag = { kind: "place" as const, id: "01950000-0000-7000-8000-00ba00000001" as PlaceId };
const [member, A] = [aMember(), aRack("A")];
const corwin = (member as { id: MemberId }).id;

function benchWith(...pieces: PieceState[]): BenchState {
  return {
    pieces: new Map(pieces.map((state) => [state.id, state])),
    book: aBook(
      [{ id: KETTLE_YARD, name: "the Kettle Yard fire", kinds: ["fire-products"] }],
      [aRule("fire-products", "yes", ["advanced cleaning"])],
    ),
    ...{ at: minute(200), by: ANY_ACCOUNT, role: "technician" },
  };
}
const packed = (evidence: "presumed" | "scanned"): PieceEntry =>
  aMove(100, member, bag, { purpose: "turn in", evidence, soiled: true });
const issued = aMove(5, A, member, { purpose: "issue" });
const scanned = (...pieces: PieceState[]) =>
  pieces.map(({ id }) => ({ piece: id, evidence: "scanned" as const }));

function entriesOf(decided: ReturnType<typeof openBag>) {
  if ("refusals" in decided) throw new Error(JSON.stringify(decided.refusals));
  return decided.entries;
}

describe("a bag that is opened", () => {
  const there = aPieceAfter(1, issued, packed("presumed"));
  const gone = aPieceAfter(2, issued, packed("presumed"));
  const stranger = aPieceAfter(3);

  test("sorts what came out of it into found, missing and strangers", () => {
    const command = { bag: bag.id, found: scanned(there, stranger) };
    expect(sortBag(benchWith(there, gone, stranger), command)).toEqual({
      found: [there.id],
      missing: [gone.id],
      strangers: [stranger.id],
    });
  });

  test("makes presumed contents real: the stay in the bag is known by scanning from then on", () => {
    const [entry] = entriesOf(
      openBag(benchWith(there), { bag: bag.id, found: scanned(there) }, { isBag: true }),
    );
    const after = aPieceAfter(1, issued, packed("presumed"), entry?.entry as PieceEntry);
    expect([there.stays.at(-1)?.evidence, after.stays.at(-1)?.evidence]).toEqual(["presumed", "scanned"]);
  });

  test("gives back to its member what was only presumed in it", () => {
    const entries = entriesOf(
      openBag(benchWith(there, gone), { bag: bag.id, found: scanned(there) }, { isBag: true }),
    );
    const correction = entries.find(({ subject }) => subject === gone.id)?.entry as PieceEntry;
    expect(correction).toMatchObject({ kind: "EntryCorrected", corrects: 3 });
    const after = aPieceAfter(2, issued, packed("presumed"), correction);
    expect([after.holder, after.soiled]).toEqual([member, false]);
  });

  test("says that nobody knows where a piece is that somebody had seen go in", () => {
    const seen = aPieceAfter(2, issued, packed("scanned"));
    const entries = entriesOf(openBag(benchWith(seen), { bag: bag.id, found: [] }, { isBag: true }));
    expect(entries[0]?.entry).toMatchObject({ kind: "PieceMoved", to: { kind: "whereabouts unknown" } });
  });

  test("lists a stranger at the event that its contents met, and says what was presumed there was seen", () => {
    const presumedAt = metAt(KETTLE_YARD).map((entry) => ({ ...entry, evidence: "presumed" as const }));
    const met = aPieceAfter(1, issued, ...presumedAt, packed("presumed"));
    const entries = entriesOf(
      openBag(benchWith(met, stranger), { bag: bag.id, found: scanned(met, stranger) }, { isBag: true }),
    );
    const kindsOf = (state: PieceState) =>
      entries.filter(({ subject }) => subject === state.id).map(({ entry }) => entry.kind);
    expect(kindsOf(met)).toEqual(["PieceFound", "PieceMet"]);
    expect(kindsOf(stranger)).toEqual(["PieceFound", "PieceMet", "HoldPlaced"]);
  });

  test("is refused for a place that is no bag", () => {
    expect(openBag(benchWith(there), { bag: bag.id, found: [] }, { isBag: false })).toEqual({
      refusals: [{ code: "not-a-bag", subject: bag.id }],
    });
  });
});

describe("a bag that is packed with a card and a badge", () => {
  const of = (count: number, set: string) =>
    aPieceAfter(count, issued, {
      kind: "PieceAssigned",
      at: minute(6),
      evidence: "described",
      assignment: { member: corwin, set },
    });
  const [first, second, loose] = [of(1, "first set"), of(2, "second set"), aPieceAfter(3, issued)];
  const goingOf = (facts: { isBag: boolean; wornSet?: string }, command: { set?: string } = {}) => {
    const decided = packBag(
      benchWith(first, second, loose),
      { bag: bag.id, member: corwin, ...command },
      facts,
    );
    return "entries" in decided ? decided.entries.map(({ subject }) => subject) : decided.refusals;
  };

  test("takes the first set, and what belongs to none, as presumed and soiled", () => {
    expect(goingOf({ isBag: true })).toEqual([first.id, loose.id]);
    const decided = packBag(benchWith(first), { bag: bag.id, member: corwin }, { isBag: true });
    const entry = "entries" in decided ? (decided.entries[0]?.entry as PieceEntry) : undefined;
    expect(entry).toMatchObject({ kind: "PieceMoved", evidence: "presumed", soiled: true });
  });

  test("takes the set that an event says was worn, and the one that is said now before that", () => {
    expect(goingOf({ isBag: true, wornSet: "second set" })).toEqual([second.id, loose.id]);
    expect(goingOf({ isBag: true, wornSet: "second set" }, { set: "first set" })).toEqual([
      first.id,
      loose.id,
    ]);
  });

  test("is refused for a member who holds nothing", () => {
    expect(packBag(benchWith(aPieceAfter(4)), { bag: bag.id, member: corwin }, { isBag: true })).toEqual({
      refusals: [{ code: "holds-nothing", subject: corwin }],
    });
  });
});

test("bags are said by short numbers, and a number is never given twice", () => {
  expect([bagName(217), bagNumber("Bag 217"), bagNumber("Bag of Tobin")]).toEqual([
    "Bag 217",
    217,
    undefined,
  ]);
  expect(nextBagNumbers([], 2)).toEqual([201, 202]);
  expect(nextBagNumbers(["Bag 217", "Bag 203", "Old bag"], 3)).toEqual([218, 219, 220]);
});
