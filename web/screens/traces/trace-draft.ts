/** What the form of a trace holds, and the question that it makes. */
import { instantIn, localMoment } from "../record/days.ts";

export const STARTS = ["event", "piece", "member", "place", "machine", "provider", "load"] as const;
export type StartKind = (typeof STARTS)[number];

export interface TraceDraft {
  readonly start: StartKind;
  /** Of what is chosen to start from; a load is reached by a link alone. */
  readonly id: string;
  /** Of a piece: when. Of a member, a place, a machine or a provider: from when. In the department's time. */
  readonly from: string;
  readonly to: string;
  readonly direction: "forward" | "backward";
  readonly hops: string;
  readonly days: string;
}

const DAY_MS = 86_400_000;
const LONGEST_DAYS = 3_650;

/** Begins a draft by the address: `?event=ID`, `?piece=ID`, …; without it nothing is chosen. */
export function draftFromAddress(search: string, now: number, timeZone: string): TraceDraft {
  const asked = new URLSearchParams(search);
  const start = STARTS.find((name) => asked.has(name)) ?? "event";
  const local = (at: number) => {
    const { day, clock } = localMoment(at, timeZone);
    return `${day}T${clock}`;
  };
  return {
    ...{ start, id: asked.get(start) ?? "", direction: "forward", hops: "2", days: "30" },
    from: local(now - 7 * DAY_MS),
    to: local(now),
  };
}

/** Tells whether a start is a time from one moment to another; an event and a load bring their own. */
export function hasSpan(start: StartKind): boolean {
  return start === "member" || start === "place" || start === "machine" || start === "provider";
}

export type DraftProblem = "start" | "times" | "days";

/** Makes the question of a draft, or tells what is missing. The days count from the start, forward or backward. */
export function questionOf(
  draft: TraceDraft,
  timeZone: string,
  eventTimes: { readonly from: string; readonly to: string } | undefined,
): { readonly question: object } | { readonly missing: readonly DraftProblem[] } {
  const { start, id, direction } = draft;
  const from = instantIn(draft.from, timeZone);
  const to = hasSpan(start) ? instantIn(draft.to, timeZone) : from;
  const days = Number(draft.days);
  const isTimed = hasSpan(start) || start === "piece";
  const missing: DraftProblem[] = [
    ...(id === "" ? (["start"] as const) : []),
    ...(isTimed && (from === undefined || to === undefined || to < from) ? (["times"] as const) : []),
    ...(Number.isInteger(days) && days >= 1 && days <= LONGEST_DAYS ? [] : (["days"] as const)),
  ];
  if (missing.length > 0) return { missing };
  const iso = (at: number) => new Date(at).toISOString();
  const during = isTimed ? { from: iso(from ?? 0), to: iso(to ?? 0) } : {};
  const told =
    start === "piece"
      ? { kind: "pieces", pieces: [id], at: during.from }
      : { kind: start, [start]: id, ...during };
  const begin = isTimed ? from : eventTimes ? Date.parse(eventTimes.from) : undefined;
  const end = isTimed ? to : eventTimes ? Date.parse(eventTimes.to) : undefined;
  const edge = direction === "forward" ? end : begin;
  const until =
    edge === undefined ? undefined : direction === "forward" ? edge + days * DAY_MS : edge - days * DAY_MS;
  return {
    question: {
      ...{ start: told, direction, hops: Number(draft.hops) },
      ...(until === undefined ? {} : { until: iso(until) }),
    },
  };
}
