import fc from "fast-check";
import { expect, test } from "vitest";
import { groupInOrder, orderByTime } from "./order-by-time.ts";

const time = fc.oneof(
  fc.integer({ min: -5, max: 5 }),
  fc.maxSafeInteger().map((value) => Math.trunc(value / 4)),
  fc.constantFrom(Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY),
);

test("times of any size, infinite ones too, are ordered as a stable sort by comparison orders them", () => {
  fc.assert(
    fc.property(fc.array(time, { maxLength: 60 }), (times) => {
      const expected = times
        .map((value, index) => ({ value, index }))
        .sort((a, b) => (a.value === b.value ? a.index - b.index : a.value < b.value ? -1 : 1))
        .map(({ index }) => index);
      expect([...orderByTime(Float64Array.from(times))]).toEqual(expected);
    }),
    { numRuns: 1_000 },
  );
});

test("items are grouped in the order in which they come", () => {
  const { starts, items } = groupInOrder(Int32Array.of(4, 2, 0, 3, 1), Int32Array.of(1, 0, 1, 2, 0), 3);
  expect([...starts]).toEqual([0, 2, 4, 5]);
  expect([...items]).toEqual([4, 1, 2, 0, 3]);
});
