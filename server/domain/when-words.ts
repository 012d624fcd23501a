import type { Instant } from "./time.ts";

const MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];
const DAY_MS = 86_400_000;

/** Writes an instant for a person: `12 Nov 2025 02:10 UTC`, or the same in the department's own zone. */
export type WhenWords = (at: Instant) => string;

/**
 * Writes an instant in UTC, to the minute, for where no time zone is at hand. Any instant from 1970 on.
 * Source of the day count: H. Hinnant, "chrono-compatible low-level date algorithms", civil_from_days.
 */
export const whenInUtc: WhenWords = (at) => {
  const days = Math.floor(at / DAY_MS);
  const minutes = Math.floor((at - days * DAY_MS) / 60_000);
  const { year, month, day } = civilFromDays(days);
  const two = (value: number) => String(value).padStart(2, "0");
  return `${day} ${MONTHS[month - 1]} ${year} ${two(Math.floor(minutes / 60))}:${two(minutes % 60)} UTC`;
};

/** Turns days since 1970-01-01 into a day of the Gregorian calendar; months run 1 to 12. Source: as above. */
export function civilFromDays(daysSince1970: number): { year: number; month: number; day: number } {
  const z = daysSince1970 + 719_468;
  const era = Math.floor(z / 146_097);
  const dayOfEra = z - era * 146_097;
  const yearOfEra = Math.floor(
    (dayOfEra -
      Math.floor(dayOfEra / 1460) +
      Math.floor(dayOfEra / 36_524) -
      Math.floor(dayOfEra / 146_096)) /
      365,
  );
  const dayOfYear = dayOfEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const shifted = Math.floor((5 * dayOfYear + 2) / 153);
  const month = shifted < 10 ? shifted + 3 : shifted - 9;
  return {
    year: yearOfEra + era * 400 + (month <= 2 ? 1 : 0),
    month,
    day: dayOfYear - Math.floor((153 * shifted + 2) / 5) + 1,
  };
}
