import { describe, expect, it } from "vitest";
import { crossesAlong, snappedAlong } from "./edge-stitches.ts";
import { seamHeights } from "./seam.tsx";
import { seamEdge, spread } from "./seam-drawing.tsx";
import { modulesPath, tagGroups } from "./tag-figure.tsx";

const LINE = [
  { x: 0, y: 0 },
  { x: 240, y: 0 },
];
const rows = (agreeing: number, differing: number) => [
  ...Array.from({ length: agreeing }, () => ({ verdict: "match" as const })),
  ...Array.from({ length: differing }, () => ({ verdict: "differs" as const })),
];

describe("seam", () => {
  it("keeps agreeing rows 48 and differing rows 84 while there is room", () => {
    expect(seamHeights(rows(3, 2))).toEqual({ agreeing: 48, differing: 84 });
  });

  it("tightens agreeing rows from six rows on, and differing ones from three on", () => {
    expect(seamHeights(rows(4, 2)).agreeing).toBe(40);
    expect(seamHeights(rows(2, 3)).differing).toBe(60);
  });

  it("has room for five differing rows between tape and hem at 800 px", () => {
    const { agreeing, differing } = seamHeights(rows(1, 5));
    const table = 76 + agreeing + 5 * differing;
    expect(22 + 60 + 14 + table + 16 + 56).toBeLessThanOrEqual(800 - 120 - 88);
  });

  it("bows an open edge outward by the bow and comes back to the seam", () => {
    expect(seamEdge(1, 0, 48)).toBe("M4 0V48");
    const open = seamEdge(-1, 30, 84);
    expect(open.startsWith("M-4 0C-4")).toBe(true);
    expect(open).toContain("-34 42");
    expect(open.endsWith("-4 84")).toBe(true);
  });

  it("spreads stitches evenly, at least one", () => {
    expect(spread(48, 14)).toEqual([8, 24, 40]);
    expect(spread(10, 26)).toEqual([5]);
  });
});

describe("stitches along an edge", () => {
  it("are crosses every 24 px", () => {
    expect(crossesAlong(LINE).match(/M/g)).toHaveLength(2 * 11);
  });

  it("are stubs every 34 px, every second with a limp tail", () => {
    const edge = snappedAlong(LINE);
    expect(edge.stubs.match(/M/g)).toHaveLength(8);
    expect(edge.tails.match(/M/g)).toHaveLength(4);
  });
});

describe("tag figure", () => {
  it("draws neighbouring modules as one rectangle", () => {
    expect(modulesPath([[true, true, false, true], [false]])).toBe("M0 0h2v1h-2zM3 0h1v1h-1z");
  });

  it("covers exactly the black modules", () => {
    const modules = [
      [true, false, true],
      [false, true, true],
    ];
    const black = [...modulesPath(modules).matchAll(/h(\d+)v1/g)].reduce(
      (sum, [, run]) => sum + Number(run),
      0,
    );
    expect(black).toBe(4);
  });

  it("parts a number into fours whatever gaps it came with", () => {
    expect(tagGroups("C7K3F92CXTKK")).toEqual(["C7K3", "F92C", "XTKK"]);
    expect(tagGroups("C7K3 F92C XTKK")).toEqual(["C7K3", "F92C", "XTKK"]);
  });
});
