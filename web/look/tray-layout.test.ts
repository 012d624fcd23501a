import { describe, expect, it } from "vitest";
import { countAlike, type TrayPlaceSize, trayLayout } from "./tray-layout.ts";

const FULL_SET: readonly TrayPlaceSize[] = ["coat", "pants", "piece", "piece", "piece", "piece"];

describe("trayLayout", () => {
  it("fills the tray with two garments and four pieces, knots in the middle of each figure", () => {
    const layout = trayLayout(FULL_SET);
    expect(layout.columns).toBe("344fr 224fr 166fr 166fr 166fr 166fr");
    expect(layout.knots.map((part) => Math.round(32 + part * 1232))).toEqual([
      192, 479, 672, 838, 1004, 1170,
    ]);
  });

  it("leaves what is not used as an empty column, so that figures keep their size", () => {
    expect(trayLayout(["piece"]).columns).toBe("166fr 1066fr");
  });

  it("shares the width when more lies on the tray than fits", () => {
    const layout = trayLayout([...FULL_SET, "coat"]);
    expect(layout.columns.split(" ")).toHaveLength(7);
    for (const knot of layout.knots) expect(knot).toBeLessThan(1);
  });

  it("frees the room above single pieces for words, behind the garments", () => {
    expect(trayLayout(FULL_SET).freeFrom).toBeCloseTo(568 / 1232);
    expect(trayLayout([]).freeFrom).toBe(0);
  });
});

describe("countAlike", () => {
  it("leaves up to six as they are", () => {
    expect(countAlike(["shell", "shell"], (kind) => kind)).toEqual([
      { item: "shell", count: 1 },
      { item: "shell", count: 1 },
    ]);
  });

  it("counts pieces of a kind from seven on, in the order in which each kind came first", () => {
    const scanned = ["shell", "liner", "shell", "shell", "hood", "liner", "shell"];
    expect(countAlike(scanned, (kind) => kind)).toEqual([
      { item: "shell", count: 4 },
      { item: "liner", count: 2 },
      { item: "hood", count: 1 },
    ]);
  });
});
