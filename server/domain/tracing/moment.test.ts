import fc from "fast-check";
import { expect, test } from "vitest";
import { readMoment, writeMoment } from "./moment.ts";

const [FIRST, LAST] = [Date.UTC(1900, 0, 1), Date.UTC(2199, 11, 31, 23, 59, 59, 999)];
const at = (text: string) => {
  const read = readMoment(text);
  if ("fault" in read) throw new Error(read.fault);
  return read.at;
};

test("every millisecond of three centuries is read as ECMAScript's Date reads it, and written back", () => {
  fc.assert(
    fc.property(fc.integer({ min: FIRST, max: LAST }), (ms) => {
      const text = new Date(ms).toISOString();
      expect(at(text)).toBe(ms * 1_000);
      expect(at(writeMoment(ms * 1_000))).toBe(ms * 1_000);
      expect(Date.parse(writeMoment(ms * 1_000))).toBe(ms);
    }),
    { numRuns: 2_000 },
  );
});

test("offsets of any form and fractions of any length name the same moment", () => {
  const same = [
    ...["2026-11-12T09:50:00Z", "2026-11-12T09:50Z", "2026-11-12T04:50:00-05:00", "2026-11-12T04:50-0500"],
    ...["2026-11-12T10:50:00.000+01", "2026-11-12T15:20:00,000000000+05:30", "2026-11-13T00:20:00+14:30"],
  ];
  expect(new Set(same.map(at)).size).toBe(1);
  expect(writeMoment(at("2026-11-12T09:50:00.25Z"))).toBe("2026-11-12T09:50:00.250Z");
  expect(writeMoment(at("2026-11-12T09:50:00.000001Z"))).toBe("2026-11-12T09:50:00.000001Z");
});

test.each([
  ["2026-11-12T09:50:00", "has no offset: write Z for UTC, or as +01:00"],
  ["2026-11-12", "is no time: write it as 2026-11-12T04:50:00-05:00"],
  ["2026-02-29T09:50:00Z", "is no day of the calendar"],
  ["2026-13-01T09:50:00Z", "is no day of the calendar"],
  ["2026-11-12T24:00:00Z", "is no time of the day"],
  ["2026-11-12T09:50:60Z", "is no time of the day"],
  ["1899-11-12T09:50:00Z", "is outside the years 1900 to 2199"],
  ["2026-11-12T09:50:00.0000001Z", "has more than six digits after the second"],
  ["2026-11-12T09:50:00+24:00", "has an offset that cannot be"],
])("%s is not read: it %s", (text, fault) => {
  expect(readMoment(text)).toEqual({ fault });
});
