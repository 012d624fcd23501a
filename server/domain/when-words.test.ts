import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Instant } from "./time.ts";
import { civilFromDays, whenInUtc } from "./when-words.ts";

describe("an instant in words", () => {
  it("says day, month, year and minute in UTC", () => {
    expect(whenInUtc(Date.parse("2024-02-29T23:59:59Z") as Instant)).toBe("29 Feb 2024 23:59 UTC");
    expect(whenInUtc(0 as Instant)).toBe("1 Jan 1970 00:00 UTC");
  });

  it("has the days that ECMAScript's own calendar has (ECMA-262, time values)", () => {
    fc.assert(
      fc.property(fc.integer({ min: -100_000, max: 200_000 }), (days) => {
        const date = new Date(days * 86_400_000);
        expect(civilFromDays(days)).toEqual({
          year: date.getUTCFullYear(),
          month: date.getUTCMonth() + 1,
          day: date.getUTCDate(),
        });
      }),
    );
  });
});
