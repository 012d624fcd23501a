/** Stitches laid along the edge of a garment, as SVG paths computed from the line between shell and liner. Pure. */
import { keepApart, type Point, type Station, stations } from "./garment-geometry.ts";

const CROSS_PITCH = 24;
const CROSS_LEAST = 15;
const CROSS_REACH = 3.6;
const STUB_PITCH = 34;
const STUB = 8;
const TAIL = 10;

/** Writes crosses of 10 px along the line, every 24 px, none nearer than 15 px to another. */
export function crossesAlong(line: readonly Point[]): string {
  return keepApart(stations(line, CROSS_PITCH, 0), CROSS_LEAST)
    .map(crossAt)
    .join("");
}

export type SnappedEdge = {
  readonly stubs: string;
  readonly tails: string;
};

/** Writes a snapped thread along the line: stubs of 8 px every 34 px, every second with a limp tail of 10 px. */
export function snappedAlong(line: readonly Point[]): SnappedEdge {
  const stops = keepApart(stations(line, STUB_PITCH, 0), CROSS_LEAST);
  return {
    stubs: stops.map(stubAt).join(""),
    tails: stops
      .filter((_, at) => at % 2 === 1)
      .map(tailAt)
      .join(""),
  };
}

function crossAt(stop: Station): string {
  const { x, y } = stop;
  const [a, b, c, d] = [x - CROSS_REACH, x + CROSS_REACH, y - CROSS_REACH, y + CROSS_REACH].map(one);
  return `M${a} ${c}L${b} ${d}M${a} ${d}L${b} ${c}`;
}

function stubAt(stop: Station): string {
  const { x, y, dx, dy } = stop;
  const half = STUB / 2;
  return `M${one(x - dx * half)} ${one(y - dy * half)}L${one(x + dx * half)} ${one(y + dy * half)}`;
}

/** A tail leaves its stub in the direction of travel, turns inward and hangs. */
function tailAt(stop: Station): string {
  const { x, y, dx, dy } = stop;
  const half = STUB / 2;
  const start = { x: x + dx * half, y: y + dy * half };
  const bend = { x: start.x + dx * 5, y: start.y + dy * 5 };
  const end = { x: bend.x - dy * 1 + dx * 0.5, y: start.y + TAIL * 0.85 };
  return `M${one(start.x)} ${one(start.y)}Q${one(bend.x)} ${one(bend.y)} ${one(end.x)} ${one(end.y)}`;
}

function one(value: number): number {
  return Math.round(value * 10) / 10;
}
