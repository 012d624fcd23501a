/**
 * Outlines of garments, pure. A half polygon is given from the top of the middle line down to its foot, mirrored at
 * `cx`, its corners rounded, then offset inward: convex corners lose the distance from their radius, concave ones gain
 * it (round joins), so that the offset of an arc is again an arc about the same centre.
 */
export type Corner = { readonly x: number; readonly y: number; readonly r: number };
export type Point = { readonly x: number; readonly y: number };

/** Reads "x,y,r · x,y" into corners; a missing radius is 0. Throws on text that is no number. */
export function readHalf(text: string): readonly Corner[] {
  return text.split("·").map((part) => {
    const [x = Number.NaN, y = Number.NaN, r = 0] = part.split(",").map(Number);
    if (![x, y, r].every(Number.isFinite)) throw new Error(`No corner: "${part.trim()}"`);
    return { x, y, r };
  });
}

/**
 * Turns the cut of each corner (how far along both edges its rounding begins) into the radius of the arc that touches
 * both edges there. A cut is at most half of the shorter edge.
 */
export function roundCorners(corners: readonly Corner[]): readonly Corner[] {
  return corners.map((corner, at) => {
    const before = neighbour(corners, at - 1);
    const after = neighbour(corners, at + 1);
    const half = halfTurn(unit(before, corner), unit(corner, after));
    const cut = Math.min(corner.r, length(before, corner) / 2, length(corner, after) / 2);
    return { ...corner, r: half === 0 ? 0 : cut / half };
  });
}

/** Mirrors a half polygon at the middle line into a closed one, clockwise on screen; corners on the line stand once. */
export function mirror(half: readonly Corner[], cx: number): readonly Corner[] {
  const other = half
    .filter((corner) => corner.x !== cx)
    .map((corner) => ({ ...corner, x: 2 * cx - corner.x }))
    .reverse();
  return [...half, ...other];
}

/** Offsets a clockwise polygon inward by `distance` px (outward when negative), keeping arcs about their centres. */
export function offsetInward(corners: readonly Corner[], distance: number): readonly Corner[] {
  return corners.map((corner, at) => {
    const before = neighbour(corners, at - 1);
    const after = neighbour(corners, at + 1);
    const a = unit(before, corner);
    const b = unit(corner, after);
    const turn = a.x * b.y - a.y * b.x;
    const moved = meet(corner, a, b, turn, distance);
    const r = turn >= 0 ? corner.r - distance : corner.r + distance;
    return { ...moved, r: Math.max(0, r) };
  });
}

/** Moves a corner to where its two edges meet after each went `distance` px to the inside. */
function meet(corner: Point, a: Point, b: Point, turn: number, distance: number): Point {
  const inA = { x: -a.y, y: a.x };
  const inB = { x: -b.y, y: b.x };
  if (Math.abs(turn) < 1e-9) return { x: corner.x + inA.x * distance, y: corner.y + inA.y * distance };
  const scale = distance / (1 + a.x * b.x + a.y * b.y);
  return { x: corner.x + (inA.x + inB.x) * scale, y: corner.y + (inA.y + inB.y) * scale };
}

type Fillet = { readonly from: Point; readonly to: Point; readonly r: number; readonly clockwise: boolean };

function fillets(corners: readonly Corner[]): readonly Fillet[] {
  return corners.map((corner, at) => {
    const before = neighbour(corners, at - 1);
    const after = neighbour(corners, at + 1);
    const a = unit(before, corner);
    const b = unit(corner, after);
    const turn = a.x * b.y - a.y * b.x;
    const cut = corner.r * halfTurn(a, b);
    return {
      from: { x: corner.x - a.x * cut, y: corner.y - a.y * cut },
      to: { x: corner.x + b.x * cut, y: corner.y + b.y * cut },
      r: cut === 0 ? 0 : corner.r,
      clockwise: turn > 0,
    };
  });
}

/** Writes a closed polygon with rounded corners as an SVG path, to two decimals. */
export function outlinePath(corners: readonly Corner[]): string {
  const parts = fillets(corners).map((fillet, at) => {
    const start = `${at === 0 ? "M" : "L"}${place(fillet.from)}`;
    if (fillet.r < 0.01) return start;
    return `${start}A${two(fillet.r)} ${two(fillet.r)} 0 0 ${fillet.clockwise ? 1 : 0} ${place(fillet.to)}`;
  });
  return `${parts.join("")}Z`;
}

/** Flattens a closed rounded polygon into points at most `step` px apart on its arcs; the first point stands again at the end. */
export function outlinePoints(corners: readonly Corner[], step = 2): readonly Point[] {
  const points: Point[] = [];
  for (const fillet of fillets(corners)) points.push(...arcPoints(fillet, step));
  const first = points[0];
  return first === undefined ? [] : [...points, first];
}

function arcPoints(fillet: Fillet, step: number): readonly Point[] {
  const { from, to, r, clockwise } = fillet;
  if (r < 0.01) return [from];
  const chord = length(from, to);
  const sweep = 2 * Math.asin(clamp(chord / (2 * r)));
  const side = clockwise ? 1 : -1;
  const along = unit(from, to);
  const rise = Math.sqrt(Math.max(0, r * r - (chord / 2) ** 2));
  const centre = {
    x: (from.x + to.x) / 2 - along.y * rise * side,
    y: (from.y + to.y) / 2 + along.x * rise * side,
  };
  const start = Math.atan2(from.y - centre.y, from.x - centre.x);
  const count = Math.max(1, Math.ceil((sweep * r) / step));
  return Array.from({ length: count + 1 }, (_, at) => {
    const angle = start + (side * sweep * at) / count;
    return { x: centre.x + r * Math.cos(angle), y: centre.y + r * Math.sin(angle) };
  });
}

export type Station = Point & {
  /** The direction of travel as a unit vector. */
  readonly dx: number;
  readonly dy: number;
};

/** Walks a line of points and stops every `pitch` px, the first stop after `start` px. */
export function stations(points: readonly Point[], pitch: number, start = 0): readonly Station[] {
  const stops: Station[] = [];
  let next = start;
  let walked = 0;
  for (let at = 1; at < points.length; at += 1) {
    const from = points[at - 1];
    const to = points[at];
    if (from === undefined || to === undefined) continue;
    const span = length(from, to);
    if (span === 0) continue;
    const way = unit(from, to);
    while (next <= walked + span) {
      const rest = next - walked;
      stops.push({ x: from.x + way.x * rest, y: from.y + way.y * rest, dx: way.x, dy: way.y });
      next += pitch;
    }
    walked += span;
  }
  return stops;
}

/** Leaves out each station that is nearer than `least` px to one that stands already. */
export function keepApart(stops: readonly Station[], least: number): readonly Station[] {
  const kept: Station[] = [];
  for (const stop of stops) {
    if (kept.every((other) => length(other, stop) >= least)) kept.push(stop);
  }
  return kept;
}

function neighbour(corners: readonly Corner[], at: number): Corner {
  const found = corners[(at + corners.length) % corners.length];
  if (found === undefined) throw new Error("A polygon without corners has no outline.");
  return found;
}

function unit(from: Point, to: Point): Point {
  const span = length(from, to);
  return span === 0 ? { x: 0, y: 0 } : { x: (to.x - from.x) / span, y: (to.y - from.y) / span };
}

function length(a: Point, b: Point): number {
  return Math.hypot(b.x - a.x, b.y - a.y);
}

/** The tangent of half the angle by which the way turns. */
function halfTurn(a: Point, b: Point): number {
  const angle = Math.acos(clamp(a.x * b.x + a.y * b.y));
  return angle < 1e-6 ? 0 : Math.tan(angle / 2);
}

function clamp(cosine: number): number {
  return Math.min(1, Math.max(-1, cosine));
}

function two(value: number): string {
  return String(Math.round(value * 100) / 100);
}

function place(point: Point): string {
  return `${two(point.x)} ${two(point.y)}`;
}
