import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  type Corner,
  keepApart,
  mirror,
  offsetInward,
  outlinePath,
  outlinePoints,
  type Point,
  readHalf,
  roundCorners,
  stations,
} from "./garment-geometry.ts";
import { garmentOutlines } from "./garment-shapes.ts";

const SQUARE: readonly Corner[] = [
  { x: 0, y: 0, r: 0 },
  { x: 100, y: 0, r: 0 },
  { x: 100, y: 100, r: 0 },
  { x: 0, y: 100, r: 0 },
];

/** An L, clockwise on screen, with one corner that turns the other way at (50, 50). */
const ELL: readonly Corner[] = [
  { x: 0, y: 0, r: 0 },
  { x: 100, y: 0, r: 0 },
  { x: 100, y: 50, r: 0 },
  { x: 50, y: 50, r: 0 },
  { x: 50, y: 100, r: 0 },
  { x: 0, y: 100, r: 0 },
];

function area(points: readonly Point[]): number {
  let sum = 0;
  points.forEach((point, at) => {
    const next = points[(at + 1) % points.length] ?? point;
    sum += point.x * next.y - next.x * point.y;
  });
  return sum / 2;
}

function distanceToLine(point: Point, line: readonly Point[]): number {
  return Math.min(
    ...line.slice(1).map((to, at) => {
      const from = line[at] ?? to;
      const [dx, dy] = [to.x - from.x, to.y - from.y];
      const span = dx * dx + dy * dy;
      const along = span === 0 ? 0 : ((point.x - from.x) * dx + (point.y - from.y) * dy) / span;
      const part = Math.min(1, Math.max(0, along));
      return Math.hypot(point.x - from.x - part * dx, point.y - from.y - part * dy);
    }),
  );
}

describe("readHalf", () => {
  it("reads corners with and without a radius", () => {
    expect(readHalf("230,40 · 262,28,6")).toEqual([
      { x: 230, y: 40, r: 0 },
      { x: 262, y: 28, r: 6 },
    ]);
  });

  it("throws on a corner that is no number", () => {
    expect(() => readHalf("230,40 · here,28")).toThrow('No corner: "here,28"');
  });
});

describe("mirror", () => {
  it("closes a half at the middle line, whose corners stand once", () => {
    const whole = mirror(readHalf("50,0 · 90,20,5 · 50,80"), 50);
    expect(whole).toEqual([
      { x: 50, y: 0, r: 0 },
      { x: 90, y: 20, r: 5 },
      { x: 50, y: 80, r: 0 },
      { x: 10, y: 20, r: 5 },
    ]);
    expect(area(whole)).toBeGreaterThan(0);
  });
});

describe("roundCorners", () => {
  it("turns a cut into the radius that begins that far from a right angle", () => {
    const [first] = roundCorners(SQUARE.map((corner) => ({ ...corner, r: 20 })));
    expect(first?.r).toBeCloseTo(20);
  });

  it("cuts at most half of the shorter edge", () => {
    const [first] = roundCorners(SQUARE.map((corner) => ({ ...corner, r: 90 })));
    expect(first?.r).toBeCloseTo(50);
  });
});

describe("offsetInward", () => {
  it("moves each edge of a square by the distance", () => {
    expect(offsetInward(SQUARE, 10).map(({ x, y }) => [x, y])).toEqual([
      [10, 10],
      [90, 10],
      [90, 90],
      [10, 90],
    ]);
  });

  it("gives a corner that turns the other way a round join of the distance", () => {
    const inner = offsetInward(ELL, 10);
    expect(inner[3]?.r).toBe(10);
    const line = outlinePoints(inner, 0.5);
    const nearest = Math.min(...line.map((point) => Math.hypot(point.x - 50, point.y - 50)));
    expect(nearest).toBeCloseTo(10, 1);
  });

  it("takes the distance from the radius of a convex corner, never below a sharp one", () => {
    const rounded = SQUARE.map((corner) => ({ ...corner, r: 8 }));
    expect(offsetInward(rounded, 5).map((corner) => corner.r)).toEqual([3, 3, 3, 3]);
    expect(offsetInward(rounded, 12).map((corner) => corner.r)).toEqual([0, 0, 0, 0]);
  });

  it("comes back to the same corners when the distance is taken back", () => {
    fc.assert(
      fc.property(fc.double({ min: 1, max: 20, noNaN: true }), (distance) => {
        const back = offsetInward(offsetInward(ELL, distance), -distance);
        back.forEach((corner, at) => {
          expect(corner.x).toBeCloseTo(ELL[at]?.x ?? Number.NaN, 6);
          expect(corner.y).toBeCloseTo(ELL[at]?.y ?? Number.NaN, 6);
        });
      }),
    );
  });
});

describe("garment outlines", () => {
  it.each(["coat", "pants"] as const)(
    "keep every point of the %s's stitch between its two outlines",
    (shape) => {
      const lines = garmentOutlines(shape);
      expect(lines.stitchPoints.length).toBeGreaterThan(50);
      const box = lines.stitchPoints.every(
        ({ x, y }) => x > 0 && x < lines.width && y > 0 && y < lines.height,
      );
      expect(box).toBe(true);
    },
  );

  it("are the same on both sides of the middle line", () => {
    const { stitchPoints, cx } = garmentOutlines("coat");
    for (const point of stitchPoints) {
      const mirrored = { x: 2 * cx - point.x, y: point.y };
      expect(distanceToLine(mirrored, stitchPoints)).toBeLessThan(0.2);
    }
  });
});

describe("outlinePath", () => {
  it("writes arcs for round corners and closes itself", () => {
    const path = outlinePath(SQUARE.map((corner) => ({ ...corner, r: 10 })));
    expect(path).toBe(
      "M0 10A10 10 0 0 1 10 0L90 0A10 10 0 0 1 100 10L100 90A10 10 0 0 1 90 100L10 100A10 10 0 0 1 0 90Z",
    );
  });

  it("lies on the arc that its points are flattened from", () => {
    const points = outlinePoints(SQUARE.map((corner) => ({ ...corner, r: 10 })));
    const onFirst = points.filter((point) => point.x <= 10 && point.y <= 10);
    for (const point of onFirst) expect(Math.hypot(point.x - 10, point.y - 10)).toBeCloseTo(10, 6);
    expect(points[0]).toEqual(points.at(-1));
  });
});

describe("stations", () => {
  it("stop every pitch along the line, corners included", () => {
    const line = [
      { x: 0, y: 0 },
      { x: 30, y: 0 },
      { x: 30, y: 30 },
    ];
    expect(stations(line, 20).map(({ x, y }) => [x, y])).toEqual([
      [0, 0],
      [20, 0],
      [30, 10],
      [30, 30],
    ]);
  });

  it("kept apart are never nearer than the least distance", () => {
    const stops = keepApart(stations(garmentOutlines("pants").stitchPoints, 24), 15);
    stops.forEach((stop, at) => {
      for (const other of stops.slice(at + 1)) {
        expect(Math.hypot(other.x - stop.x, other.y - stop.y)).toBeGreaterThanOrEqual(15);
      }
    });
    expect(stops.length).toBeGreaterThan(30);
  });
});
