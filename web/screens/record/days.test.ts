import { expect, test } from "vitest";
import {
  instantIn,
  localMoment,
  sayDayOf,
  sayLength,
  sayLongDay,
  sayMonths,
  sayShortDay,
  sayStamp,
} from "./days.ts";

const at = (text: string) => Date.parse(text);

test("an instant is told by the clocks of the department, not of the machine", () => {
  const midnight = at("2026-03-08T04:59:00Z");
  expect(localMoment(midnight, "America/New_York")).toEqual({
    day: "2026-03-07",
    month: "2026-03",
    clock: "23:59",
  });
  expect(localMoment(midnight, "Europe/Berlin").clock).toBe("05:59");
  expect(localMoment(at("2026-03-08T00:00:00Z"), "UTC").clock).toBe("00:00");
});

test("what somebody types is the time of the department's clocks, in summer, in winter and around a change", () => {
  expect(instantIn("2026-07-02T09:15", "America/Chicago")).toBe(at("2026-07-02T14:15:00Z"));
  expect(instantIn("2026-01-02T09:15", "America/Chicago")).toBe(at("2026-01-02T15:15:00Z"));
  expect(instantIn("2026-03-08T03:00", "America/New_York")).toBe(at("2026-03-08T07:00:00Z"));
  expect(instantIn("2026-03-08T01:59", "America/New_York")).toBe(at("2026-03-08T06:59:00Z"));
  expect([instantIn("", "UTC"), instantIn("2026-07-02", "UTC")]).toEqual([undefined, undefined]);
});

test("the hour that a spring change leaves out is never told", () => {
  expect(localMoment(at("2026-03-08T07:00:00Z"), "America/New_York").clock).toBe("03:00");
});

test("a head names the months that it covers", () => {
  expect(sayMonths("2026-11", "2026-11")).toBe("November 2026");
  expect(sayMonths("2026-06", "2026-07")).toBe("June and July 2026");
  expect(sayMonths("2025-12", "2026-01")).toBe("December 2025 and January 2026");
});

test("days stand with their weekday, and with their month where the head does not say it", () => {
  expect(sayDayOf("2026-11-24", false)).toBe("Tue 24");
  expect(sayDayOf("2026-07-02", true)).toBe("Thu 2 Jul");
  expect(sayShortDay("2026-06-14")).toBe("14 Jun");
  expect(sayShortDay("2025-12-28", true)).toBe("28 Dec 2025");
  expect(sayLongDay("2025-03-04")).toBe("4 March 2025");
  expect(sayStamp(at("2026-11-24T15:15:00Z"), "America/New_York")).toBe("Tue 24 Nov 2026, 10:15");
});

test("a length is told in whole units and never as nothing", () => {
  expect(sayLength(18 * 86_400_000 + 5)).toBe("18 days");
  expect(sayLength(86_400_000)).toBe("1 day");
  expect(sayLength(47 * 3_600_000)).toBe("1 day");
  expect(sayLength(5 * 3_600_000 + 59 * 60_000)).toBe("5 hours");
  expect(sayLength(60_000)).toBe("1 minute");
  expect(sayLength(1)).toBe("1 minute");
});
