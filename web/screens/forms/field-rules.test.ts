import { describe, expect, it } from "vitest";
import { isAfter, readCents, readMadeOn } from "./field-rules.ts";

describe("a manufacture date", () => {
  it.each([
    ["2024-05", "2024-05"],
    [" 2024-05-17 ", "2024-05-17"],
    ["05/2024", "2024-05"],
    ["5/2024", "2024-05"],
    ["05.2024", "2024-05"],
  ])("that says %j is read as %s, and a month stays a month", (typed, read) => {
    expect(readMadeOn(typed)).toBe(read);
  });
  it.each(["5/6/2024", "2024-13", "13/2024", "2024", "May 2024", "2023-02-29"])(
    "that says %j is not guessed at",
    (typed) => {
      expect(readMadeOn(typed)).toBeUndefined();
    },
  );
  it("of this month has come, of the next has not", () => {
    expect([isAfter("2026-11", "2026-11-24"), isAfter("2026-12", "2026-11-24")]).toEqual([false, true]);
    expect([isAfter("2026-11-24", "2026-11-24"), isAfter("2026-11-25", "2026-11-24")]).toEqual([false, true]);
  });
});

describe("a price", () => {
  it.each([
    ["1249", 124_900],
    ["1,249.50", 124_950],
    ["1249,50", 124_950],
    ["$ 12.05", 1_205],
    ["0", 0],
  ])("of %j is %i cents", (typed, cents) => {
    expect(readCents(typed)).toBe(cents);
  });
  it.each(["12.5", "1.249", "-3", "12 EUR", "12,34,567"])("of %j is not guessed at", (typed) => {
    expect(readCents(typed)).toBeUndefined();
  });
  it("of more than a million is refused, as the register refuses it", () => {
    expect([readCents("1000000"), readCents("1000000.01")]).toEqual([100_000_000, undefined]);
  });
});
