import { type BenchState, type Handled, handledStates, layersIn, onPiece } from "../bench/bench-state.ts";
import { type KnownEvent, metAndHeld } from "../contamination/meet-pieces.ts";
import type { EventId, PieceId, PlaceId } from "../ids.ts";
import type { PieceState } from "../pieces/piece-state.ts";
import type { Decided } from "../refusal.ts";
import type { NewEntry } from "../subjects.ts";
import { type Holder, isSameHolder, WHEREABOUTS_UNKNOWN } from "./holder.ts";

/** Opens a bag: what was scanned out of it becomes real, what was presumed in it and is not goes back. */
export interface OpenBag {
  readonly bag: PlaceId;
  readonly found: readonly Handled[];
}

/** What an opened bag comes to: contents found, missing, strangers. */
export interface BagOpened {
  readonly found: readonly PieceId[];
  readonly missing: readonly PieceId[];
  readonly strangers: readonly PieceId[];
}

/** Sorts out what was scanned out of a bag against what is on record in it. Layers inside a found shell are not missing. */
export function sortBag(bench: BenchState, { bag, found }: OpenBag): BagOpened {
  const holder: Holder = { kind: "place", id: bag };
  const seen = new Set(found.map(({ piece }) => piece));
  const inside = new Set([...seen].flatMap((shell) => layersIn(bench, shell).map(({ id }) => id)));
  const expected = [...bench.pieces.values()].filter((state) => isSameHolder(state.holder, holder));
  const isExpected = new Set(expected.map(({ id }) => id));
  return {
    found: [...seen].filter((id) => isExpected.has(id)),
    missing: expected.map(({ id }) => id).filter((id) => !seen.has(id) && !inside.has(id)),
    strangers: [...seen].filter((id) => !isExpected.has(id)),
  };
}

/**
 * Writes the opening as one act. Found pieces were in the bag, and so are strangers, by whatever way: as found, never
 * refused. A piece that was only presumed there goes back to who had it, by a correction of the packing; one that
 * somebody had seen go in is gone: whereabouts unknown. What came out of a bag whose contents met an event was there:
 * presumed becomes seen, and a stranger is listed. Give the pieces of the bag and the scanned ones under lock.
 */
export function openBag(
  bench: BenchState,
  command: OpenBag,
  facts: { readonly isBag: boolean },
): Decided<readonly NewEntry[]> {
  const { known, refusals: unknown } = handledStates(bench, command.found);
  const refusals = [
    ...unknown,
    ...(facts.isBag ? [] : [{ code: "not-a-bag" as const, subject: command.bag }]),
  ];
  if (refusals.length > 0) return { refusals };
  const holder: Holder = { kind: "place", id: command.bag };
  const { missing } = sortBag(bench, command);
  const events = eventsOfBag(bench, holder);
  const entries = [
    ...known.flatMap(({ state, handled }) => [
      onPiece(state.id, {
        kind: "PieceFound",
        at: bench.at,
        evidence: handled.evidence,
        holder,
        unpacked: true,
      }),
      ...events.flatMap((event) => metAndHeld(bench, event, state, handled.evidence)),
    ]),
    ...missing.flatMap((id) => {
      const state = bench.pieces.get(id);
      return state ? [notThere(bench, state, holder)] : [];
    }),
  ];
  return { entries };
}

function notThere(bench: BenchState, state: PieceState, holder: Holder): NewEntry {
  const { at } = bench;
  const stay = state.stays.at(-1);
  const fact = { at, evidence: "described" as const };
  if (stay?.evidence === "presumed") {
    return onPiece(state.id, { kind: "EntryCorrected", ...fact, corrects: stay.fromVersion });
  }
  return onPiece(state.id, {
    kind: "PieceMoved",
    ...fact,
    from: holder,
    to: WHEREABOUTS_UNKNOWN,
    purpose: "transfer",
  });
}

/** So long before the packing an event may lie for the bag to be of it. Own judgement: a weekend. */
const OF_THE_BAG_MS = 3 * 24 * 3_600_000;

function eventsOfBag(bench: BenchState, bag: Holder): KnownEvent[] {
  const events = new Map<EventId, KnownEvent>();
  for (const state of bench.pieces.values()) {
    const stay = state.stays.at(-1);
    if (!stay || !isSameHolder(state.holder, bag)) continue;
    for (const { event, from, to } of state.meetings) {
      const brief = bench.book.events.get(event);
      if (brief && from <= stay.from && stay.from - to <= OF_THE_BAG_MS) {
        events.set(event, { ...brief, from, to });
      }
    }
  }
  return [...events.values()];
}
