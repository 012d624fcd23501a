import { expect, test } from "vitest";
import { PLACE_SORTS, usualCarries } from "./place.ts";

test("what is in a bag, bin, washer or dryer touches, a locker keeps pieces apart, and all else is shared", () => {
  const closed = PLACE_SORTS.filter((what) => usualCarries(what) === "closed");
  expect(closed).toEqual(["bin", "bag", "washer", "dryer"]);
  expect(PLACE_SORTS.filter((what) => usualCarries(what) === "apart")).toEqual(["locker"]);
});
