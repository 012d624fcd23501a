import { type BenchState, fittingAt, onPiece } from "../bench/bench-state.ts";
import type { Evidence } from "../evidence.ts";
import type { EventId, PieceId } from "../ids.ts";
import { type Meeting, type PieceState, standingHolds } from "../pieces/piece-state.ts";
import type { Refusal } from "../refusal.ts";
import type { NewEntry } from "../subjects.ts";
import type { Instant } from "../time.ts";
import type { EventFacts } from "./contamination-event.ts";
import { openOf } from "./standing-contamination.ts";

/** A piece that is said to have been at an event. */
export interface AtEvent {
  readonly piece: PieceId;
  readonly evidence: "scanned" | "typed" | "described" | "presumed";
}

export interface KnownEvent extends EventFacts {
  readonly id: EventId;
}

const STRENGTH: readonly Evidence[] = ["scanned", "typed", "described", "with its set", "presumed"];

function strongest(known: Evidence | undefined, said: Evidence): Evidence {
  return known && STRENGTH.indexOf(known) <= STRENGTH.indexOf(said) ? known : said;
}

/**
 * Writes that pieces were at an event, and puts them on a contamination hold. Layers that were in a shell then go with
 * it. Weaker evidence never replaces stronger. A piece that was cleaned since by all that the policy asks gets no hold,
 * and a retired one needs none. Refuses pieces that are not registered.
 */
export function meetPieces(
  bench: BenchState,
  event: KnownEvent,
  pieces: readonly AtEvent[],
): { readonly entries: readonly NewEntry[]; readonly refusals: readonly Refusal[] } {
  const refusals: Refusal[] = [];
  const told = new Map<PieceId, Evidence>();
  for (const { piece, evidence } of pieces) {
    if (bench.pieces.has(piece)) told.set(piece, evidence);
    else refusals.push({ code: "unknown-subject", subject: piece, what: "piece" });
  }
  for (const state of bench.pieces.values()) {
    const shell = fittingAt(state, event.from)?.shell;
    const ofShell = shell && told.get(shell);
    if (!ofShell) continue;
    // A layer that was proposed is known better by the shell that somebody saw.
    const withShell = ofShell === "presumed" ? "presumed" : "with its set";
    told.set(state.id, strongest(told.get(state.id), withShell));
  }
  const entries = [...told].flatMap(([id, evidence]) => {
    const state = bench.pieces.get(id);
    return state ? metAndHeld(bench, event, state, evidence) : [];
  });
  return { entries, refusals };
}

/** Writes the meeting, where it says more than is known, and the hold, where something is open and none stands. */
export function metAndHeld(
  bench: BenchState,
  event: KnownEvent,
  state: PieceState,
  evidence: Evidence,
): readonly NewEntry[] {
  const known = state.meetings.find((one) => one.event === event.id);
  const best = strongest(known?.evidence, evidence);
  const meeting: Meeting = { event: event.id, from: event.from, to: event.to, evidence: best, version: 0 };
  const isNews = !known || known.evidence !== best || known.from !== event.from || known.to !== event.to;
  return [
    ...(isNews ? [onPiece(state.id, metEntry(state, meeting))] : []),
    ...holdAsNeeded(bench, event, state, meeting),
  ];
}

function metEntry(state: PieceState, { event, from, to, evidence }: Meeting) {
  // A piece that came on record later was there all the same; its entries begin with its registration.
  const at = Math.max(from, state.registeredAt) as Instant;
  return { kind: "PieceMet" as const, at, evidence, event, from, to };
}

/** Places the hold of an event, or lifts it, by what is open on the piece after this meeting. */
function holdAsNeeded(
  bench: BenchState,
  event: KnownEvent,
  state: PieceState,
  meeting: Meeting,
): readonly NewEntry[] {
  const { at, by, book } = bench;
  const others = state.meetings.filter((one) => one.event !== event.id);
  const open = openOf({ ...state, meetings: [...others, meeting] }, event, book);
  const hold = holdOf(state, event.id);
  const fact = { at, evidence: "described" as const };
  if (open.length === 0) {
    return hold === undefined ? [] : [liftedBy(state.id, { ...fact, hold, because: "cleaned" })];
  }
  if (hold !== undefined || state.retiredAt !== undefined) return [];
  return [onPiece(state.id, { kind: "HoldPlaced", ...fact, hold: "contamination", by, event: event.id })];
}

function holdOf(state: PieceState, event: EventId): number | undefined {
  return standingHolds(state).find((hold) => hold.event === event)?.version;
}

function liftedBy(
  piece: PieceId,
  lift: { at: Instant; evidence: Evidence; hold: number; because: "cleaned" | "not met" },
): NewEntry {
  return onPiece(piece, { kind: "HoldLifted", ...lift });
}

/**
 * Writes that pieces were not at an event after all, which ends their hold. What was only presumed is taken off by
 * whoever works there; what somebody saw there is taken off by the program manager alone.
 */
export function strikePieces(
  bench: BenchState,
  event: EventId,
  pieces: readonly PieceId[],
): { readonly entries: readonly NewEntry[]; readonly refusals: readonly Refusal[] } {
  const entries: NewEntry[] = [];
  const refusals: Refusal[] = [];
  for (const piece of pieces) {
    const state = bench.pieces.get(piece);
    const met = state?.meetings.find((one) => one.event === event);
    if (!state || !met) {
      refusals.push({ code: "unknown-subject", subject: piece, what: "piece of this event" });
    } else if (met.evidence !== "presumed" && bench.role !== "program manager") {
      refusals.push({ code: "seen-at-event", subject: piece, event, evidence: met.evidence });
    } else {
      const fact = { at: bench.at, evidence: "described" as const };
      const hold = holdOf(state, event);
      entries.push(onPiece(piece, { kind: "PieceNotMet", ...fact, event }));
      if (hold !== undefined) entries.push(liftedBy(piece, { ...fact, hold, because: "not met" }));
    }
  }
  return { entries, refusals };
}
