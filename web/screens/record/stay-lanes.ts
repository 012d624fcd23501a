/** Gives a stay timeline its lanes, threads and ticks from the stays of a piece. */
import type { StayView } from "../../../server/domain/page-views.ts";
import type { Named } from "../../../server/domain/piece-view.ts";
import type { TimelineInput, TimelineLane, TimelineTick } from "../../look/stay-timeline-layout.ts";
import type { RecordWords } from "../../look/words-record.ts";
import { localMoment, sayLength, sayShortDay } from "./days.ts";
import { gapsOf } from "./trail-rows.ts";

/** More places than this would make more lanes than one can compare; then they share one. */
const MOST_PLACE_LANES = 4;
const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;

/** Lays the stays out in lanes by kind of holder. `now` is the right end; stays must be in order of time. */
export function stayLanes(
  stays: readonly StayView[],
  now: number,
  timeZone: string,
  words: RecordWords,
): TimelineInput {
  const gaps = new Set(gapsOf(stays));
  const around = new Set(stays.filter(({ holder }) => holder.kind === "place").map(aroundOf));
  const lane = (stay: StayView): TimelineLane => {
    if (gaps.has(stay) || stay.holder.kind === "whereabouts unknown") {
      return { key: "gap", name: words.laneOf["whereabouts unknown"], unrecorded: true };
    }
    if (stay.holder.kind !== "place" || around.size > MOST_PLACE_LANES) {
      return { key: stay.holder.kind, name: words.laneOf[holderLane(stay.holder)] };
    }
    const place = aroundOf(stay);
    return { key: `place ${place}`, name: words.laneIn(place) };
  };
  const lanes = new Map<string, TimelineLane>();
  for (const stay of stays) lanes.set(lane(stay).key, lane(stay));
  const start = Date.parse(stays[0]?.from ?? new Date(now).toISOString());
  return {
    lanes: [...lanes.values()].sort((a, b) => rankOf(a) - rankOf(b)),
    stays: stays.map((stay) => ({
      key: `${stay.fromVersion} ${stay.from} ${stay.holder.kind}`,
      lane: lane(stay).key,
      from: Date.parse(stay.from),
      to: stay.to ? Date.parse(stay.to) : undefined,
      label: labelOf(stay, lane(stay), start, now),
    })),
    ticks: ticksBetween(start, now, timeZone),
    start,
    now: Math.max(now, start + HOUR_MS),
  };
}

function aroundOf({ holder }: StayView): string {
  return holder.detail ?? holder.name;
}

type LaneName = keyof RecordWords["laneOf"];

function holderLane({ kind }: Named): LaneName {
  switch (kind) {
    case "member":
    case "provider":
    case "outside":
    case "in transit":
    case "whereabouts unknown":
      return kind;
    default:
      return "place";
  }
}

/** From top to bottom: with people, at places, with others, on the way, not recorded. */
function rankOf({ key, unrecorded }: TimelineLane): number {
  if (unrecorded) return 9;
  const order = ["member", "place", "provider", "outside", "in transit"];
  return order.indexOf(key.split(" ")[0] === "place" ? "place" : key);
}

/** Shorter stays, as a part of the whole time, are too narrow for a name between the moves at both ends. */
const LEAST_LABELLED = 1 / 40;

function labelOf(stay: StayView, lane: TimelineLane, start: number, now: number): string | undefined {
  const length = (stay.to ? Date.parse(stay.to) : now) - Date.parse(stay.from);
  if (lane.unrecorded) return sayLength(length);
  if (!stay.to) return isShortName(stay.holder.name) ? undefined : stay.holder.name;
  if (length < (now - start) * LEAST_LABELLED) return undefined;
  return lane.name.endsWith(stay.holder.name) ? undefined : stay.holder.name;
}

/** Whether a name with "now" fits beside the end of the thread; a longer one stands above its thread. */
export function isShortName(name: string): boolean {
  return name.length <= 8;
}

/** Steps of the ruler, the finest that leaves at most eight ticks. */
const STEPS = [
  { unit: "day", size: 1, ms: DAY_MS },
  { unit: "day", size: 7, ms: 7 * DAY_MS },
  { unit: "month", size: 1, ms: 30.4 * DAY_MS },
  { unit: "month", size: 3, ms: 91.3 * DAY_MS },
  { unit: "month", size: 6, ms: 182.6 * DAY_MS },
  { unit: "month", size: 12, ms: 365.2 * DAY_MS },
  { unit: "month", size: 24, ms: 730.5 * DAY_MS },
] as const;
const MOST_TICKS = 8;

/** Gives the ticks between two instants: days, weeks, months or years, the year said where it changes. */
export function ticksBetween(start: number, end: number, timeZone: string): readonly TimelineTick[] {
  const step = STEPS.find(({ ms }) => (end - start) / ms <= MOST_TICKS) ?? STEPS[STEPS.length - 1];
  if (!step) return [];
  return step.unit === "day" ? dayTicks(start, end, step.size, timeZone) : monthTicks(start, end, step.size);
}

function dayTicks(start: number, end: number, size: number, timeZone: string): readonly TimelineTick[] {
  const ticks: TimelineTick[] = [];
  const label = (at: number) => sayShortDay(localMoment(at, timeZone).day);
  for (let day = Math.floor(start / DAY_MS) - 1; day <= end / DAY_MS + 1; day += 1) {
    if (day % size !== 0) continue;
    const at = localMidnight(day * DAY_MS, timeZone);
    if (at >= start && at <= end) ticks.push({ at, label: label(at) });
  }
  return ticks.length > 0 ? ticks : [{ at: start, label: label(start) }];
}

/** Gives the instant at which the clocks of a zone begin the day that begins at `utc` by the universal clock. */
function localMidnight(utc: number, timeZone: string): number {
  const shown = localMoment(utc, timeZone);
  const offset = Date.parse(`${shown.day}T${shown.clock}:00Z`) - utc;
  return utc - offset;
}

const SHORT = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

/** Months begin by the universal clock: a zone moves a tick by hours, which is less than a pixel of such a ruler. */
function monthTicks(start: number, end: number, size: number): readonly TimelineTick[] {
  const first = new Date(start);
  const ticks: TimelineTick[] = [];
  let month = Math.ceil((first.getUTCFullYear() * 12 + first.getUTCMonth()) / size) * size;
  let year: number | undefined;
  for (; ; month += size) {
    const at = Date.UTC(Math.floor(month / 12), month % 12, 1);
    if (at > end) return ticks;
    if (at < start) continue;
    const isNewYear = year !== Math.floor(month / 12);
    year = Math.floor(month / 12);
    const name = size >= 12 ? "" : `${SHORT[month % 12]} `;
    ticks.push({ at, label: isNewYear ? `${name}${year}` : (SHORT[month % 12] ?? "") });
  }
}
