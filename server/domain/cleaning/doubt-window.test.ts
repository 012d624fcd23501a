import { expect, test } from "vitest";
import type { Instant } from "../time.ts";
import { doubtWindow } from "./doubt-window.ts";

const day = (count: number) => Date.UTC(2026, 2, count) as Instant;
const good = (count: number) => ({ at: day(count), outcome: "in order" as const });
const faulty = (count: number) => ({ at: day(count), outcome: "faulty" as const });

test("what a faulty machine ran is in doubt from its last good check to the next", () => {
  const checks = [good(1), good(5), faulty(9), good(12), good(20)];
  expect(doubtWindow(checks, day(9))).toEqual({ from: day(5), to: day(12) });
});

test("a machine that was never found in order is in doubt since ever, and one not mended still is", () => {
  expect(doubtWindow([faulty(9)], day(9))).toEqual({});
  expect(doubtWindow([good(1), faulty(9)], day(9))).toEqual({ from: day(1) });
});

test("a second fault in the same time changes nothing, and the order in which checks were written does not count", () => {
  const checks = [good(12), faulty(10), faulty(9), good(5)];
  expect(doubtWindow(checks, day(10))).toEqual({ from: day(5), to: day(12) });
});
