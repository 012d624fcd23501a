import { isWash } from "../domain/cleaning/is-wash.ts";
import type { PieceId, Uuid } from "../domain/ids.ts";
import type { Named, Names } from "../domain/piece-view.ts";
import type {
  CannotExclude,
  NotFollowed,
  ThreadState,
  ThreadStay,
  TraceContact,
  TraceDirection,
  TraceLane,
  TraceThread,
} from "../domain/tracing/trace-view.ts";
import type { TraceCleaningRow, TracePlaceRow } from "../store/read-for-trace.ts";
import { type Accepts, isPresumed, laneOf, type RecordStay } from "./walk-record.ts";

/** All that the record says of the pieces of a trace within its window. */
export interface ThreadFacts {
  readonly stays: readonly RecordStay[];
  readonly staysOf: ReadonlyMap<string, readonly RecordStay[]>;
  readonly cleanings: readonly TraceCleaningRow[];
  readonly places: ReadonlyMap<string, TracePlaceRow>;
  readonly names: Names;
  readonly accepts: Accepts;
  readonly direction: TraceDirection;
  readonly from: number;
  readonly to: number;
}

export const wire = (ms: number): string => new Date(ms).toISOString();

/** The time during which a piece carried what the trace is about, [from, to). */
export interface Carried {
  readonly from: number;
  readonly to: number;
}

/** Tells since when, or until when, a piece carried it: an accepted cleaning ends it, or it began after one. */
export function carriedBy(piece: string, moment: number, facts: ThreadFacts): Carried {
  const times = facts.cleanings
    .filter((each) => each.piece === piece && facts.accepts(each.how, each.evidence))
    .map(({ at_ms }) => at_ms);
  if (facts.direction === "forward") {
    return { from: moment, to: Math.min(Number.POSITIVE_INFINITY, ...times.filter((at) => at >= moment)) };
  }
  return { from: Math.max(Number.NEGATIVE_INFINITY, ...times.filter((at) => at <= moment)), to: moment };
}

/** Gives a piece's stays in the window, cut where its state changes. */
export function threadStays(
  piece: string,
  carried: Carried,
  state: ThreadState,
  { staysOf, from, to }: ThreadFacts,
): ThreadStay[] {
  const own = (staysOf.get(piece) ?? []).filter((stay) => stay.from <= to && (stay.to ?? to) >= from);
  return own.flatMap((stay) => {
    const end = stay.to ?? Number.POSITIVE_INFINITY;
    const cuts = [carried.from, carried.to].filter((at) => at > stay.from && at < end);
    const starts = [stay.from, ...cuts];
    return starts.map((start, index): ThreadStay => {
      const stop = starts[index + 1] ?? end;
      const isCarried =
        start === stop
          ? start >= carried.from && start <= carried.to
          : start >= carried.from && stop <= carried.to;
      return {
        lane: stay.holder,
        from: wire(start),
        ...(Number.isFinite(stop) ? { to: wire(stop) } : {}),
        state: isCarried ? state : "not reached",
        evidence: stay.evidence,
        isPresumed: isPresumed(stay.evidence),
        entry: { subject: piece as Uuid, version: stay.version },
      };
    });
  });
}

/** The first accepted cleaning after a moment, else the first wash. */
export function washedSince(piece: string, moment: number, facts: ThreadFacts): TraceContact["washedSince"] {
  const since = facts.cleanings
    .filter((each) => each.piece === piece && each.at_ms >= moment)
    .sort((a, b) => a.at_ms - b.at_ms);
  const accepted = since.find(({ how, evidence }) => facts.accepts(how, evidence));
  const first = accepted ?? since.find(({ how }) => isWash(how));
  return first && { at: wire(first.at_ms), how: first.how, isAccepted: first === accepted };
}

/** Makes a lane of each holder that the threads pass, in the order in which they first do; of a load also its machine's place. */
export function lanesOf(threads: readonly TraceThread[], facts: ThreadFacts): TraceLane[] {
  const byLane = new Map<string, RecordStay>();
  for (const stay of facts.stays) if (!byLane.has(stay.holder)) byLane.set(stay.holder, stay);
  const lanes = new Map<string, TraceLane>();
  for (const id of threads.flatMap(({ stays }) => stays.map(({ lane }) => lane))) {
    const stay = byLane.get(id);
    if (!stay || lanes.has(id)) continue;
    const own = laneOf(stay.holderKind, stay.holderId);
    if (!lanes.has(own)) lanes.set(own, holderLane(own, stay, facts));
    if (id !== own) lanes.set(id, loadLane(id, own, stay, facts));
  }
  return [...lanes.values()];
}

function loadLane(id: string, within: string, stay: RecordStay, { stays, names }: ThreadFacts): TraceLane {
  const spans = stays.filter(({ holder }) => holder === id);
  const ends = spans.map(({ to }) => to ?? Number.POSITIVE_INFINITY);
  const last = Math.max(...ends);
  return {
    ...{
      id,
      within,
      holder: nameOf(stay, names),
      sort: "load",
      carries: "closed",
      isFollowed: true,
      cleanings: [],
    },
    from: wire(Math.min(...spans.map(({ from }) => from))),
    ...(Number.isFinite(last) ? { to: wire(last) } : {}),
  };
}

function holderLane(id: string, stay: RecordStay, { names, places, from, to }: ThreadFacts): TraceLane {
  const place = stay.holderKind === "place" ? places.get(stay.holderId ?? "") : undefined;
  const carries = place?.carries ?? "apart";
  const cleanings = (place?.cleaned ?? []).filter((at) => at >= from && at <= to).sort((a, b) => a - b);
  return {
    ...{ id, holder: nameOf(stay, names), carries, isFollowed: carries !== "apart" },
    sort: place?.what ?? stay.holderKind,
    cleanings: cleanings.map(wire),
  };
}

export function nameOf(stay: RecordStay, names: Names): Named {
  const { holderKind, holderId } = stay;
  const known = holderId ? names[holderId] : undefined;
  return (
    known ?? {
      kind: holderKind as Named["kind"],
      ...(holderId ? { id: holderId as Uuid } : {}),
      name: holderKind,
    }
  );
}

/** Times of the threads for which nobody recorded who had the piece. */
export function gapsOf(threads: readonly TraceThread[]): CannotExclude[] {
  return threads.flatMap(({ piece, name, stays }) =>
    stays.flatMap((stay): CannotExclude[] => {
      const { lane: why } = stay;
      if (why !== "whereabouts unknown" && why !== "in transit") return [];
      return [{ piece, name, from: stay.from, ...(stay.to ? { to: stay.to } : {}), why, entry: stay.entry }];
    }),
  );
}

/** Holders at which pieces carried it, and through which nothing was followed. */
export function notFollowedIn(threads: readonly TraceThread[], lanes: readonly TraceLane[]): NotFollowed[] {
  return lanes.flatMap(({ id, holder, carries, isFollowed }): NotFollowed[] => {
    if (isFollowed || id === "whereabouts unknown" || id === "in transit") return [];
    const pieces = threads
      .filter(({ stays }) => stays.some((stay) => stay.lane === id && stay.state !== "not reached"))
      .map(({ piece }): PieceId => piece);
    return pieces.length > 0 ? [{ lane: id, holder, carries, pieces }] : [];
  });
}
