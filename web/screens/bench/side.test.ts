import { expect, test } from "vitest";
import type { PieceView } from "../../../server/domain/piece-view.ts";
import { straysSay } from "./side.ts";

const NOW = Date.parse("2026-03-02T10:40:00Z");
const coat = (facts: object): PieceView => ({ kind: { name: "Coat shell" }, ...facts }) as never;
const soiled = coat({ soiled: true, soiledSince: "2026-03-02T10:00:00.000Z" });

test("a soiled piece on the clean side says when it came in, and that it has no load", () => {
  expect(straysSay(soiled, "clean", NOW)).toBe("Coat shell came in soiled 40 minutes ago and has no load.");
});

test("nothing is said on the soiled side, where no side is known, or of what was washed", () => {
  expect([straysSay(soiled, "soiled", NOW), straysSay(soiled, undefined, NOW)]).toEqual([
    undefined,
    undefined,
  ]);
  expect(straysSay(coat({ soiled: false }), "clean", NOW)).toBeUndefined();
});

test("hours and days are told in their own words", () => {
  const days = coat({ soiled: true, soiledSince: "2026-02-27T10:40:00.000Z" });
  expect(straysSay(days, "clean", NOW)).toContain("3 days ago");
});
