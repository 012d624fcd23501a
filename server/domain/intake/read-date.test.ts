import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { daysInMonth } from "../time.ts";
import { readDate } from "./read-date.ts";

test.each([
  ["2024-03-05", "2024-03-05"],
  ["2024-03", "2024-03"],
  ["20240305", "2024-03-05"],
])("ISO 8601: %s is read as %s", (cell, date) => {
  expect(readDate(cell)).toEqual({ date });
});

test.each([
  ["2024/3/5", "2024-03-05"],
  ["2024.03", "2024-03"],
  ["3/2024", "2024-03"],
  ["03-2024", "2024-03"],
  ["5 Mar 2024", "2024-03-05"],
  ["5th March 2024", "2024-03-05"],
  ["05-MAR-2024", "2024-03-05"],
  ["Mar 5, 2024", "2024-03-05"],
  ["March 5 2024", "2024-03-05"],
  ["Sept. 2019", "2019-09"],
  ["May 2019", "2019-05"],
  ["Mar-2019", "2019-03"],
  ["25/12/2019", "2019-12-25"],
  ["12/25/2019", "2019-12-25"],
  ["4/4/2019", "2019-04-04"],
  ["2024-03-05 00:00:00", "2024-03-05"],
  ["2024-03-05T00:00:00.000Z", "2024-03-05"],
])("one reading alone: %s is %s", (cell, date) => {
  expect(readDate(cell)).toEqual({ date });
});

test.each([
  ["03/04/2024", "day or month first"],
  ["3-4-2024", "day or month first"],
  ["25/12/19", "two-figure year"],
  ["Mar-24", "two-figure year"],
  ["5 Mar '24", "two-figure year"],
  ["45356", "a number"],
  ["2019", "a number"],
  ["2023-02-29", "no such day"],
  ["31/4/2024", "no such day"],
  ["2024-13", "no such day"],
  ["13/2024", "no such day"],
  ["31/13/2024", "no such day"],
  ["2024-03-05 14:30", "not a date"],
  ["Spring 2019", "not a date"],
  ["unknown", "not a date"],
  ["2024-3/5", "not a date"],
])("%s is refused: %s", (cell, doubt) => {
  expect(readDate(cell)).toEqual({ doubt });
});

describe("properties", () => {
  const days = fc
    .record({
      year: fc.integer({ min: 1900, max: 2199 }),
      month: fc.integer({ min: 1, max: 12 }),
      day: fc.integer({ min: 1, max: 31 }),
    })
    .filter(({ year, month, day }) => day <= daysInMonth(year, month));
  const two = (n: number) => String(n).padStart(2, "0");

  test("property: a day in figures is read the same whichever comes first, or refused in both", () => {
    fc.assert(
      fc.property(days, ({ year, month, day }) => {
        const date = `${year}-${two(month)}-${two(day)}`;
        expect(readDate(date)).toEqual({ date });
        const isSure = day > 12 || day === month;
        const answer = isSure ? { date } : { doubt: "day or month first" };
        expect(readDate(`${day}/${month}/${year}`)).toEqual(answer);
        expect(readDate(`${two(month)}-${two(day)}-${year}`)).toEqual(answer);
      }),
    );
  });
});
