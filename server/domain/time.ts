import type { Brand } from "./brand.ts";

/** Milliseconds since 1970-01-01T00:00:00Z, a whole number. */
export type Instant = Brand<number, "instant">;
/** A calendar day, `YYYY-MM-DD`, without a time zone. */
export type LocalDate = Brand<string, "local date">;
/** A calendar month, `YYYY-MM`. */
export type YearMonth = Brand<string, "year month">;
/** A manufacture date as the label gives it: a full day, or the month alone, which then stays month only. */
export type MadeOn = LocalDate | YearMonth;

const DAYS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

/** Tells how many days a month has in the Gregorian calendar; month runs 1 to 12. */
export function daysInMonth(year: number, month: number): number {
  const isLeap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
  return month === 2 && isLeap ? 29 : (DAYS[month - 1] ?? 0);
}

/** Parses `YYYY-MM-DD`. Returns undefined for anything that is no day of the calendar. Source: ISO 8601. */
export function parseLocalDate(text: string): LocalDate | undefined {
  const parts = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text);
  if (!parts) return undefined;
  const day = Number(parts[3]);
  return parseYearMonth(text.slice(0, 7)) &&
    day >= 1 &&
    day <= daysInMonth(Number(parts[1]), Number(parts[2]))
    ? (text as LocalDate)
    : undefined;
}

/** Parses `YYYY-MM`, year 1900 to 2199. Returns undefined for anything else. Source: ISO 8601. */
export function parseYearMonth(text: string): YearMonth | undefined {
  const parts = /^(19|20|21)\d{2}-(\d{2})$/.exec(text);
  if (!parts) return undefined;
  const month = Number(parts[2]);
  return month >= 1 && month <= 12 ? (text as YearMonth) : undefined;
}

/** Parses a manufacture date, `YYYY-MM-DD` or `YYYY-MM`. Returns undefined for anything else. */
export function parseMadeOn(text: string): MadeOn | undefined {
  return parseLocalDate(text) ?? parseYearMonth(text);
}
