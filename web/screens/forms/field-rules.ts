/** What a field may hold, read once: text that was typed becomes a value, or stays a problem of its field. */
import { type LocalDate, type MadeOn, parseLocalDate, parseMadeOn } from "../../../server/domain/time.ts";

/** The longest words of a label or file that the register takes. Source: schema of registerPieces. */
export const WORDS_MAX = 200;
export const NOTE_MAX = 2000;

/** Reads a day, `YYYY-MM-DD`. */
export function readDay(text: string): LocalDate | undefined {
  return parseLocalDate(text.trim());
}

/**
 * Reads a manufacture date: `2024-05`, `2024-05-17`, or month and year as many labels have them, `05/2024`. Days with
 * slashes are not read: 5/6/2024 is two days.
 */
export function readMadeOn(text: string): MadeOn | undefined {
  const typed = text.trim();
  const monthYear = /^(\d{1,2})[/.](\d{4})$/.exec(typed);
  return parseMadeOn(monthYear ? `${monthYear[2]}-${monthYear[1]?.padStart(2, "0")}` : typed);
}

/** Tells whether a manufacture date lies after a day; a month alone does when the whole month does. */
export function isAfter(madeOn: string, today: string): boolean {
  return madeOn > today.slice(0, madeOn.length);
}

/** Reads an amount of money as cents: `1249`, `1,249.50`, `1249,50`. At most 1,000,000.00. */
export function readCents(text: string): number | undefined {
  const typed = text.trim().replace(/^\$\s*/, "");
  const parts = /^(\d{1,3}(?:,\d{3})+|\d{1,7})(?:[.,](\d{2}))?$/.exec(typed);
  if (!parts) return undefined;
  const cents = Number(parts[1]?.replaceAll(",", "")) * 100 + Number(parts[2] ?? 0);
  return cents <= 100_000_000 ? cents : undefined;
}

/** Writes cents as the form reads them back: `1,249.50`. */
export function sayCents(cents: number): string {
  const whole = String(Math.floor(cents / 100)).replace(/(?<=\d)(?=(\d{3})+$)/g, ",");
  return `${whole}.${String(cents % 100).padStart(2, "0")}`;
}

/** Tells whether text fits in one line of at most `max` characters. */
export function isOneLine(text: string, max: number): boolean {
  return text.trim().length <= max && !/\p{Cc}/u.test(text.trim());
}
