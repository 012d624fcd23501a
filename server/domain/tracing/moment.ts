import { daysInMonth } from "../time.ts";
import { civilFromDays } from "../when-words.ts";

/** Microseconds since 1970-01-01T00:00:00Z, a whole number: as fine as databases and languages write. */
export type Microsecond = number;

const SECOND = 1_000_000;
const DAY = 86_400 * SECOND;
const SHAPE =
  /^(\d{4})-(\d{2})-(\d{2})T(\d{2}):(\d{2})(?::(\d{2})(?:[.,](\d+))?)?(?:([Zz])|([+-])(\d{2})(?::?(\d{2}))?)$/;
const WITHOUT_OFFSET = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(:\d{2}([.,]\d+)?)?$/;

/**
 * Reads an ISO 8601 date and time with its offset: seconds and fractions may be left out, the year runs 1900 to 2199,
 * digits after the sixth must be zeros. For anything else the reason, worded to follow the text that was read.
 */
export function readMoment(text: string): { readonly at: Microsecond } | { readonly fault: string } {
  const parts = SHAPE.exec(text);
  if (!parts) {
    const isLocal = WITHOUT_OFFSET.test(text);
    return {
      fault: isLocal
        ? "has no offset: write Z for UTC, or as +01:00"
        : "is no time: write it as 2026-11-12T04:50:00-05:00",
    };
  }
  const [year, month, day] = [Number(parts[1]), Number(parts[2]), Number(parts[3])];
  const [hour, minute, second] = [Number(parts[4]), Number(parts[5]), Number(parts[6] ?? 0)];
  if (year < 1900 || year > 2199) return { fault: "is outside the years 1900 to 2199" };
  if (month < 1 || month > 12 || day < 1 || day > daysInMonth(year, month))
    return { fault: "is no day of the calendar" };
  if (hour > 23 || minute > 59 || second > 59) return { fault: "is no time of the day" };
  const fraction = parts[7] ?? "";
  if (/[1-9]/.test(fraction.slice(6))) return { fault: "has more than six digits after the second" };
  const [offsetHours, offsetMinutes] = [Number(parts[10] ?? 0), Number(parts[11] ?? 0)];
  if (offsetHours > 23 || offsetMinutes > 59) return { fault: "has an offset that cannot be" };
  const offset = (parts[9] === "-" ? -1 : 1) * (offsetHours * 60 + offsetMinutes);
  const minutes = hour * 60 + minute - offset;
  const at = daysFromCivil(year, month, day) * DAY + (minutes * 60 + second) * SECOND;
  return { at: at + Number(fraction.slice(0, 6).padEnd(6, "0")) };
}

/** Writes a moment as ISO 8601 in UTC, `2026-11-12T09:50:00Z`, with three or six digits after the second where needed. */
export function writeMoment(at: Microsecond): string {
  const days = Math.floor(at / DAY);
  const rest = at - days * DAY;
  const seconds = Math.floor(rest / SECOND);
  const { year, month, day } = civilFromDays(days);
  const digits = (value: number, count: number) => String(value).padStart(count, "0");
  const micros = digits(rest - seconds * SECOND, 6);
  const fraction =
    micros === "000000" ? "" : micros.endsWith("000") ? `.${micros.slice(0, 3)}` : `.${micros}`;
  const clock = [Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60, seconds % 60]
    .map((value) => digits(value, 2))
    .join(":");
  return `${digits(year, 4)}-${digits(month, 2)}-${digits(day, 2)}T${clock}${fraction}Z`;
}

/** Counts the days from 1970-01-01 to a day of the Gregorian calendar. Source: H. Hinnant, days_from_civil. */
function daysFromCivil(year: number, month: number, day: number): number {
  const shifted = month <= 2 ? year - 1 : year;
  const era = Math.floor(shifted / 400);
  const yearOfEra = shifted - era * 400;
  const dayOfYear = Math.floor((153 * (month > 2 ? month - 3 : month + 9) + 2) / 5) + day - 1;
  const dayOfEra = yearOfEra * 365 + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100) + dayOfYear;
  return era * 146_097 + dayOfEra - 719_468;
}
