import fc from "fast-check";
import { expect, test } from "vitest";
import { aFinding, aMove, aPiece, aRack, minute } from "../../../test/kit/builders/piece-entries.ts";
import { isSeen } from "../evidence.ts";
import type { PieceEntry, Versioned } from "../pieces/piece-entries.ts";
import { foldStays, inOrderOfHappening, type Stay } from "./fold-stays.ts";
import { type Holder, isSameHolder, WHEREABOUTS_UNKNOWN } from "./holder.ts";

const RACKS = ["A", "B", "C", "D"].map(aRack);

interface Step {
  readonly wait: number;
  readonly to: number;
  readonly how: "move" | "found" | "presumed";
}

const step = (shortestWait: number): fc.Arbitrary<Step> =>
  fc.record({
    wait: fc.integer({ min: shortestWait, max: 3 }),
    to: fc.integer({ min: 0, max: RACKS.length - 1 }),
    how: fc.constantFrom("move", "move", "found", "presumed"),
  });

/** What really happened to one piece: each move starts where the piece is. */
function history(steps: readonly Step[]): PieceEntry[] {
  const facts: PieceEntry[] = [aPiece()];
  let at = 0;
  let holder = RACKS[0] ?? WHEREABOUTS_UNKNOWN;
  for (const { wait, to, how } of steps) {
    at += wait;
    const next = RACKS[to] ?? WHEREABOUTS_UNKNOWN;
    if (how === "move") facts.push(aMove(at, holder, next));
    else facts.push(aFinding(at, next, { evidence: how === "found" ? "scanned" : "presumed" }));
    holder = next;
  }
  return facts;
}

/** Records facts one by one; one that does not fit what is on record is not taken. */
function record(facts: readonly PieceEntry[]): Versioned<PieceEntry>[] {
  const taken: Versioned<PieceEntry>[] = [];
  for (const entry of facts) {
    const next = { version: taken.length + 1, entry };
    if (!("code" in foldStays([...taken, next]))) taken.push(next);
  }
  return taken;
}

function staysOf(entries: readonly Versioned<PieceEntry>[]): readonly Stay[] {
  const custody = foldStays(entries);
  if ("code" in custody) throw new Error(custody.code);
  return custody.stays;
}

const told = (stays: readonly Stay[]) => stays.map(({ fromVersion: _, toVersion: __, ...stay }) => stay);

/**
 * The same rule, written plainly and slowly: where is the piece at one moment? Where the last fact that names a holder
 * put it, unless the next fact found it elsewhere and nobody had seen it there since.
 */
function holderByDefinition(entries: readonly Versioned<PieceEntry>[], at: number): Holder | undefined {
  const facts = inOrderOfHappening(entries).map(({ entry }) => entry);
  const named = facts.map((entry) =>
    entry.kind === "PieceMoved" ? entry.to : "holder" in entry ? entry.holder : WHEREABOUTS_UNKNOWN,
  );
  const lastBefore = facts.findLastIndex((entry) => entry.at <= at);
  const holder = named[lastBefore];
  if (!holder) return undefined;
  const leaves = facts.findIndex(
    (_, index) => index > lastBefore && !isSameHolder(named[index] ?? holder, holder),
  );
  const isFoundElsewhere = leaves >= 0 && facts[leaves]?.kind === "PieceFound";
  if (!isFoundElsewhere) return holder;
  let arrived = lastBefore;
  while (
    arrived > 0 &&
    facts[arrived]?.kind === "PieceFound" &&
    isSameHolder(named[arrived - 1] ?? holder, holder)
  )
    arrived -= 1;
  const seen = facts.slice(arrived, leaves).filter((entry, index) => index === 0 || isSeen(entry.evidence));
  return at < (seen.at(-1)?.at ?? 0) ? holder : WHEREABOUTS_UNKNOWN;
}

test("stays join without a gap from the registration on, and exactly one is open", () => {
  fc.assert(
    fc.property(fc.array(step(0), { maxLength: 12 }), fc.infiniteStream(fc.nat()), (steps, keys) => {
      const facts = history(steps);
      const shuffled = [...facts.slice(1)].map((fact) => ({ fact, key: keys.next().value ?? 0 }));
      shuffled.sort((a, b) => a.key - b.key);
      const stays = staysOf(record([facts[0] ?? aPiece(), ...shuffled.map(({ fact }) => fact)]));
      expect(stays[0]?.from).toBe(minute(0));
      stays.forEach((stay, index) => {
        expect(stay.to).toBe(stays[index + 1]?.from);
        if (stay.to !== undefined) expect(stay.to).toBeGreaterThanOrEqual(stay.from);
      });
      expect(stays.filter((stay) => stay.to === undefined)).toHaveLength(1);
    }),
  );
});

test("any order of recording in which every fact is taken ends in the same stays", () => {
  fc.assert(
    fc.property(fc.array(step(1), { maxLength: 7 }), fc.infiniteStream(fc.nat()), (steps, keys) => {
      const facts = history(steps);
      const later = facts.slice(1).map((fact) => ({ fact, key: keys.next().value ?? 0 }));
      later.sort((a, b) => a.key - b.key);
      const shuffled = record([facts[0] ?? aPiece(), ...later.map(({ fact }) => fact)]);
      fc.pre(shuffled.length === facts.length);
      expect(told(staysOf(shuffled))).toEqual(told(staysOf(record(facts))));
    }),
    { numRuns: 200 },
  );
});

test("at every moment the piece is where the plain definition says", () => {
  fc.assert(
    fc.property(fc.array(step(0), { maxLength: 10 }), (steps) => {
      const entries = record(history(steps));
      const stays = staysOf(entries);
      for (let count = -1; count < 32; count += 1) {
        const at = minute(count);
        const stay = stays.findLast(({ from, to }) => from <= at && (to === undefined || at < to));
        expect(stay?.holder).toEqual(holderByDefinition(entries, at));
      }
    }),
  );
});
