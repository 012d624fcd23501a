import { describe, expect, test } from "vitest";
import { extractionG, highestRpm } from "./extraction.ts";

const inches = (count: number) => count * 25.4;

describe("extraction in G (facts.md 6.3)", () => {
  test("a 65 in drum at 570 rpm gives 299.6 G, as the laundry guide says [S104]", () => {
    expect(extractionG(570, inches(65))).toBeCloseTo(299.6, 1);
  });

  test.each([
    [24, 541],
    [26, 520],
    [30, 484],
    [36, 442],
    [42, 409],
    [48, 383],
  ])("a drum of %i in stays within 100 G up to %i rpm, derived from the published constant", (drum, rpm) => {
    expect(highestRpm(100, inches(drum))).toBe(rpm);
    expect(extractionG(rpm, inches(drum))).toBeLessThanOrEqual(100);
    expect(extractionG(rpm + 1, inches(drum))).toBeGreaterThan(100);
  });

  test.each([
    [30, 484, 99.7],
    [30, 485, 100.1],
    [36, 450, 103.4],
    [30, 480, 98.0],
  ])("the edges: a %i in drum at %i rpm gives %f G", (drum, rpm, g) => {
    expect(extractionG(rpm, inches(drum))).toBeCloseTo(g, 1);
  });
});
