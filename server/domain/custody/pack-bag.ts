import { type BenchState, fittingAt, holderAt, onPiece } from "../bench/bench-state.ts";
import type { MemberId, PlaceId } from "../ids.ts";
import type { PieceState } from "../pieces/piece-state.ts";
import type { Decided } from "../refusal.ts";
import type { NewEntry } from "../subjects.ts";
import { isSameHolder } from "./holder.ts";

/** Puts what a member held in a bag, unseen: bag card and badge or member card, and nothing else. */
export interface PackBag {
  readonly bag: PlaceId;
  readonly member: MemberId;
  /** Which of the member's sets; where it is not said, the one that an event says was worn, else the first by name. */
  readonly set?: string;
}

/** What is known beside the pieces: whether it is a bag, and which set an event of the last days says was worn. */
export interface BagFacts {
  readonly isBag: boolean;
  readonly wornSet?: string;
}

/**
 * Writes a packing as moves with the evidence "presumed": nobody saw the pieces go in. They are soiled, layers fitted in
 * a shell go with it, and pieces that belong to no set go along. Give the pieces that the member holds under lock.
 * Refuses a place that is no bag and a member who holds nothing.
 */
export function packBag(bench: BenchState, command: PackBag, facts: BagFacts): Decided<readonly NewEntry[]> {
  const { bag, member } = command;
  if (!facts.isBag) return { refusals: [{ code: "not-a-bag", subject: bag }] };
  const holder = { kind: "member" as const, id: member };
  const held = [...bench.pieces.values()].filter(
    (state) => state.retiredAt === undefined && isSameHolder(holderAt(state, bench.at), holder),
  );
  if (held.length === 0) return { refusals: [{ code: "holds-nothing", subject: member }] };
  const set = command.set ?? facts.wornSet ?? firstSet(held, member);
  const going = new Set(held.filter((state) => isOf(state, member, set)).map(({ id }) => id));
  const entries = held.flatMap((state) => {
    const shell = fittingAt(state, bench.at)?.shell;
    const within = shell && going.has(shell) ? shell : undefined;
    if (!within && !going.has(state.id)) return [];
    // A layer of a shell that stays is not in the bag without it.
    if (shell && !within) return [];
    return [
      onPiece(state.id, {
        kind: "PieceMoved",
        at: bench.at,
        evidence: "presumed",
        from: holder,
        to: { kind: "place", id: bag },
        purpose: "turn in",
        releasedBy: member,
        soiled: true,
        ...(within ? { within } : {}),
      }),
    ];
  });
  return entries.length > 0 ? { entries } : { refusals: [{ code: "holds-nothing", subject: member }] };
}

function firstSet(held: readonly PieceState[], member: MemberId): string | undefined {
  return held.flatMap(({ assignment }) => (assignment?.member === member ? assignment.set : [])).sort()[0];
}

function isOf({ assignment }: PieceState, member: MemberId, set: string | undefined): boolean {
  return assignment?.member !== member || assignment.set === set;
}
