import { expect, test } from "vitest";
import { parseUuid } from "./ids.ts";
import { parseLocalDate, parseMadeOn } from "./time.ts";

test("a day that no calendar has is refused", () => {
  expect(parseLocalDate("2024-02-29")).toBe("2024-02-29");
  expect(parseLocalDate("2023-02-29")).toBeUndefined();
  expect(parseLocalDate("2100-02-29")).toBeUndefined();
  expect(parseMadeOn("2022-13")).toBeUndefined();
});

test("a month-only manufacture date stays month only", () => {
  expect(parseMadeOn("2022-03")).toBe("2022-03");
});

test("RFC 9562 appendix A.6: the version 7 example is taken in either case", () => {
  expect(parseUuid("017F22E2-79B0-7CC3-98C4-DC0C0C07398F")).toBe("017f22e2-79b0-7cc3-98c4-dc0c0c07398f");
  expect(parseUuid("017F22E2")).toBeUndefined();
});
