/** Puts the rows of a trail under months: entries as they happened, and time without a record in its place. */
import type { StayView, TrailEntry } from "../../../server/domain/page-views.ts";
import { localMoment, sayMonths } from "./days.ts";

export type TrailRow =
  | { readonly what: "entry"; readonly key: string; readonly at: number; readonly entry: TrailEntry }
  /** Nobody wrote down who had the piece; without `to` it lasts. */
  | { readonly what: "gap"; readonly key: string; readonly from: number; readonly to: number };

export interface TrailGroup {
  /** `November 2026`, or the months that a gap joins: `June and July 2026`. */
  readonly head: string;
  /** The head names several months, so each row says its own. */
  readonly isSpan: boolean;
  readonly rows: readonly TrailRow[];
}

interface Span {
  readonly first: string;
  readonly last: string;
  readonly rows: readonly TrailRow[];
}

/** Gives the groups, oldest first or newest first. A gap stands before the entry that ended it. */
export function trailGroups(
  rows: readonly TrailRow[],
  timeZone: string,
  order: "newest first" | "oldest first",
): readonly TrailGroup[] {
  const month = (at: number) => localMoment(at, timeZone).month;
  const spans: Span[] = [];
  for (const row of [...rows].sort(byHappening)) {
    const last = month(momentOf(row));
    let span: Span = {
      first: row.what === "gap" ? joinedFrom(month(row.from), last) : last,
      last,
      rows: [row],
    };
    for (let before = spans.at(-1); before && before.last >= span.first; before = spans.at(-1)) {
      spans.pop();
      span = joined(before, span);
    }
    spans.push(span);
  }
  const groups = spans.map(({ first, last, rows: inside }) => ({
    head: sayMonths(first, last),
    isSpan: first !== last,
    rows: order === "oldest first" ? inside : inside.toReversed(),
  }));
  return order === "oldest first" ? groups : groups.toReversed();
}

/** A gap from one month into the next joins the two; a longer one would swallow what was written down in between. */
function joinedFrom(first: string, last: string): string {
  const months = (month: string) => Number(month.slice(0, 4)) * 12 + Number(month.slice(5));
  return months(last) - months(first) === 1 ? first : last;
}

/** Months are `YYYY-MM`, so the order of their letters is the order of time. */
function joined(before: Span, after: Span): Span {
  return {
    first: before.first.localeCompare(after.first) < 0 ? before.first : after.first,
    last: before.last.localeCompare(after.last) > 0 ? before.last : after.last,
    rows: [...before.rows, ...after.rows],
  };
}

/** Makes the rows: each entry, and each stay that only says that nothing was recorded. */
export function trailRows(
  entries: readonly TrailEntry[],
  stays: readonly StayView[],
  now: number,
): readonly TrailRow[] {
  const told = entries.map((entry): TrailRow => {
    const { subjectKind, subject, version } = entry;
    return {
      what: "entry",
      key: `${subjectKind} ${subject} ${version}`,
      at: Date.parse(entry.at),
      entry,
    };
  });
  const gaps = gapsOf(stays).map(({ from, to }): TrailRow => {
    const begin = Date.parse(from);
    return { what: "gap", key: `gap ${from}`, from: begin, to: to ? Date.parse(to) : now };
  });
  return [...told, ...gaps];
}

/**
 * Gives the custody gaps: stays with whereabouts unknown that a later finding revealed. Where an entry itself moved the
 * piece to whereabouts unknown, that entry says so and the time is no gap in the record.
 */
export function gapsOf(stays: readonly StayView[]): readonly StayView[] {
  return stays.filter(({ fromVersion, toVersion }) => fromVersion === toVersion);
}

function byHappening(a: TrailRow, b: TrailRow): number {
  return momentOf(a) - momentOf(b) || rankOf(a) - rankOf(b);
}

function momentOf(row: TrailRow): number {
  return row.what === "gap" ? row.to : row.at;
}

/** At one moment: the gap that ends, then the piece's entries as they were recorded, then its tags'. */
function rankOf(row: TrailRow): number {
  return row.what === "gap" ? -1 : row.entry.position + row.entry.version / 1e6;
}
