/** Says days, clocks and lengths of time as a record does. Instants are milliseconds; the zone is the department's. */

export interface LocalMoment {
  /** `YYYY-MM-DD` in the zone. */
  readonly day: string;
  /** `YYYY-MM`. */
  readonly month: string;
  /** `10:14`. */
  readonly clock: string;
}

const MONTHS = [
  ...["January", "February", "March", "April", "May", "June"],
  ...["July", "August", "September", "October", "November", "December"],
];
const WEEKDAYS = ["Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"];
const MINUTE_MS = 60_000;
const HOUR_MS = 3_600_000;
const DAY_MS = 86_400_000;

const formats = new Map<string, Intl.DateTimeFormat>();

/** Reads an instant as the clocks of a zone show it. */
export function localMoment(at: number, timeZone: string): LocalMoment {
  let format = formats.get(timeZone);
  if (!format) {
    format = new Intl.DateTimeFormat("en-CA", {
      timeZone,
      hourCycle: "h23",
      ...{ year: "numeric", month: "2-digit", day: "2-digit", hour: "2-digit", minute: "2-digit" },
    });
    formats.set(timeZone, format);
  }
  const parts = new Map(format.formatToParts(at).map(({ type, value }) => [type, value]));
  const month = `${parts.get("year")}-${parts.get("month")}`;
  return {
    month,
    day: `${month}-${parts.get("day")}`,
    clock: `${parts.get("hour")}:${parts.get("minute")}`,
  };
}

/**
 * Reads a local date and time, `2026-03-02T09:15`, as the clocks of a zone had it. Undefined where it is none. In the
 * hour that a change of clocks repeats it takes the later one; a time that it leaves out is moved on by its length.
 */
export function instantIn(local: string, timeZone: string): number | undefined {
  const asUtc = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}/.test(local)
    ? Date.parse(`${local.slice(0, 16)}Z`)
    : Number.NaN;
  if (Number.isNaN(asUtc)) return undefined;
  const ahead = (at: number) => {
    const { day, clock } = localMoment(at, timeZone);
    return Date.parse(`${day}T${clock}Z`) - at;
  };
  return asUtc - ahead(asUtc - ahead(asUtc));
}

/** Says a calendar month: `November 2026`. */
export function sayMonth(month: string): string {
  return `${MONTHS[Number(month.slice(5)) - 1] ?? ""} ${month.slice(0, 4)}`;
}

/** Says one month or two that follow each other: `June and July 2026`, `December 2025 and January 2026`. */
export function sayMonths(first: string, last: string): string {
  if (first === last) return sayMonth(first);
  const isOneYear = first.slice(0, 4) === last.slice(0, 4);
  const begin = isOneYear ? sayMonth(first).replace(/ \d+$/, "") : sayMonth(first);
  return `${begin} and ${sayMonth(last)}`;
}

/** Says a day under its month's head: `Tue 24`, or with the month where the head names several: `Thu 2 Jul`. */
export function sayDayOf(day: string, withMonth: boolean): string {
  const weekday = WEEKDAYS[new Date(`${day}T12:00:00Z`).getUTCDay()] ?? "";
  const date = String(Number(day.slice(8)));
  return withMonth ? `${weekday} ${date} ${shortMonth(day)}` : `${weekday} ${date}`;
}

/** Says a day of a span: `14 Jun`; with the year where the span crosses into another: `28 Dec 2025`. */
export function sayShortDay(day: string, withYear = false): string {
  const said = `${Number(day.slice(8))} ${shortMonth(day)}`;
  return withYear ? `${said} ${day.slice(0, 4)}` : said;
}

/** Says a day in full: `4 March 2025`. */
export function sayLongDay(day: string): string {
  return `${Number(day.slice(8))} ${sayMonth(day.slice(0, 7))}`;
}

/** Says a moment so that it stands by itself, on paper: `Tue 24 Nov 2026, 10:15`. */
export function sayStamp(at: number, timeZone: string): string {
  const { day, clock } = localMoment(at, timeZone);
  return `${sayDayOf(day, true)} ${day.slice(0, 4)}, ${clock}`;
}

function shortMonth(day: string): string {
  return (MONTHS[Number(day.slice(5, 7)) - 1] ?? "").slice(0, 3);
}

/** Says how long something took, in the largest whole unit that fits: `18 days`, `5 hours`, `20 minutes`. */
export function sayLength(ms: number): string {
  if (ms >= 2 * DAY_MS) return count(Math.floor(ms / DAY_MS), "day");
  if (ms >= DAY_MS) return "1 day";
  if (ms >= HOUR_MS) return count(Math.floor(ms / HOUR_MS), "hour");
  return count(Math.max(1, Math.floor(ms / MINUTE_MS)), "minute");
}

function count(many: number, unit: string): string {
  return `${many} ${unit}${many === 1 ? "" : "s"}`;
}
