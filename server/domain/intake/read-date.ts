import { daysInMonth, type LocalDate, type MadeOn, parseMadeOn } from "../time.ts";
import type { DateDoubt } from "./problem.ts";

const MONTHS = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];
const FULL = [
  "january",
  "february",
  "march",
  "april",
  "may",
  "june",
  "july",
  "august",
  "september",
  "october",
  "november",
  "december",
];

export type DateReading = { readonly date: MadeOn } | { readonly doubt: DateDoubt };

/**
 * Reads a day or a month from a cell, only where one reading is possible: ISO 8601 (2024-03-05, 2024-03, 20240305),
 * year first with slashes or points, a month in English words with a four-figure year, month/year (3/2024), and
 * day and month in figures when one of them is over 12 or both are equal. 03/04/2024, 3/4/24 and a spreadsheet's
 * day number are refused with the reason. A time of midnight is dropped.
 */
export function readDate(cell: string): DateReading {
  const text = cell.trim().replace(/(?:[T ]0{1,2}:00(?::00(?:\.0+)?)?Z?)$/, "");
  return (
    iso(text) ??
    inWords(text) ??
    inFigures(text) ?? { doubt: /^\d{4,6}(?:\.\d+)?$/.test(text) ? "a number" : "not a date" }
  );
}

/** Tells whether a reading is a full day, not a month alone. */
export function isDay(date: MadeOn): date is LocalDate {
  return date.length === 10;
}

function iso(text: string): DateReading | undefined {
  const parts = /^(\d{4})([-/.])(\d{1,2})(?:\2(\d{1,2}))?$/.exec(text);
  if (parts) return dateOf(parts[1], parts[3], parts[4]);
  const basic = /^(19\d\d|20\d\d|21\d\d)(\d\d)(\d\d)$/.exec(text);
  return basic ? dateOf(basic[1], basic[2], basic[3]) : undefined;
}

function inWords(text: string): DateReading | undefined {
  const folded = text.toLowerCase().replace(/(\d)(?:st|nd|rd|th)\b/g, "$1");
  const dayFirst = /^(?:(\d{1,2})[\s.-]+)?([a-z]+)[.,]?[\s,-]*('?\d{2}|\d{4})$/.exec(folded);
  const monthFirst = /^([a-z]+)\.?[\s-]+(\d{1,2})(?:\s*,\s*|\s+)('?\d{2}|\d{4})$/.exec(folded);
  const [day, word, year] = monthFirst
    ? [monthFirst[2], monthFirst[1], monthFirst[3]]
    : [dayFirst?.[1], dayFirst?.[2], dayFirst?.[3]];
  const month = word === undefined ? 0 : monthOf(word);
  if (year === undefined || month === 0) return undefined;
  return year.length === 4 ? dateOf(year, String(month), day) : { doubt: "two-figure year" };
}

function inFigures(text: string): DateReading | undefined {
  const month = /^(\d{1,2})[-/.](\d{4})$/.exec(text);
  if (month) return dateOf(month[2], month[1], undefined);
  const parts = /^(\d{1,2})([-/.])(\d{1,2})\2(\d{4}|\d{2})$/.exec(text);
  if (!parts) return undefined;
  const [one, two, year] = [Number(parts[1]), Number(parts[3]), parts[4]];
  if (year?.length !== 4) return { doubt: "two-figure year" };
  if (one === two || two > 12) return dateOf(year, parts[1], parts[3]);
  return one > 12 ? dateOf(year, parts[3], parts[1]) : { doubt: "day or month first" };
}

function dateOf(year = "", month = "", day: string | undefined): DateReading {
  const isReal = day === undefined || Number(day) <= daysInMonth(Number(year), Number(month));
  const text = [year, month.padStart(2, "0"), ...(day === undefined ? [] : [day.padStart(2, "0")])].join("-");
  const date = isReal ? parseMadeOn(text) : undefined;
  return date === undefined ? { doubt: "no such day" } : { date };
}

/** Month of a name or of its first three letters ("Sept" too), 1 to 12; 0 for any other word. */
function monthOf(word: string): number {
  const short = word === "sept" ? "sep" : word;
  return Math.max(MONTHS.indexOf(short), FULL.indexOf(short)) + 1;
}
