/** Where the threads of a trace picture run: time to the right with idle time folded, holders as lanes. Pure. */
export type PictureLane = {
  readonly key: string;
  readonly name: string;
  /** Under the name: "rack", "load", "not followed". */
  readonly sort: string;
  readonly edge: "closed" | "shared" | "apart";
};

export type PictureState = "was there" | "possibly reached" | "not reached";

export type PictureStay = {
  readonly lane: string;
  readonly from: number;
  /** Absent while it lasts. */
  readonly to?: number | undefined;
  readonly state: PictureState;
};

export type PictureThread = {
  readonly key: string;
  /** Threads of one garment are drawn as one when there are many. */
  readonly garment: string;
  /** Number of the list, and the moment at which it stands. */
  readonly knot?: { readonly rank: number; readonly at: number } | undefined;
  readonly stays: readonly PictureStay[];
  readonly cleanings: readonly number[];
};

export type PictureInput = {
  readonly lanes: readonly PictureLane[];
  readonly threads: readonly PictureThread[];
  /** Milliseconds, as all times here. */
  readonly from: number;
  readonly to: number;
};

export type Fold = {
  readonly x: number;
  readonly width: number;
  readonly lengthMs: number;
  /** Line under the picture on which its length stands: folds near each other take turns. */
  readonly row: 0 | 1;
};
export type PlacedPictureLane = PictureLane & { readonly y: number; readonly height: number };
export type PlacedLeg = {
  readonly x0: number;
  readonly x1: number;
  readonly y: number;
  readonly state: PictureState;
};
/** From one lane to another; drawn as the lesser of the two stays that it joins, so that it never claims more. */
export type PlacedThreadMove = {
  readonly x: number;
  readonly y0: number;
  readonly y1: number;
  readonly state: PictureState;
};
export type PlacedThread = {
  readonly key: string;
  /** How many threads this one stands for. */
  readonly count: number;
  readonly legs: readonly PlacedLeg[];
  readonly moves: readonly PlacedThreadMove[];
  readonly ticks: readonly { readonly x: number; readonly y: number }[];
  readonly knot?: { readonly x: number; readonly y: number; readonly rank: number } | undefined;
};
export type PictureLayout = {
  readonly width: number;
  readonly height: number;
  readonly left: number;
  readonly lanes: readonly PlacedPictureLane[];
  readonly threads: readonly PlacedThread[];
  readonly folds: readonly Fold[];
  readonly ticks: readonly { readonly x: number; readonly at: number }[];
};

/** Source of the sizes: look guide, "Trace picture". */
export const FOLD = 22;
export const THREAD_PITCH = 9.5;
export const KNOT_PITCH = 25;
const BUNDLED_FROM = 31;
const TOP = 34;
const LANE_INSET = 24;
const LANE_GAP = 6;
const LEAST_SEGMENT = 18;
const TICK_LABEL = 150;
const FOLD_LABEL = 60;
export const FOOT = 52;
const HOUR_MS = 3_600_000;
/** Nothing happened for longer than this: the time is folded. Own judgement. */
const IDLE_MS = 3 * HOUR_MS;

/** Lays the picture out in a width, with room for the names of lanes at the left; `open` is a garment shown in layers. */
export function layoutPicture(
  input: PictureInput,
  frame: { readonly width: number; readonly left: number; readonly open?: string | undefined },
): PictureLayout {
  const threads = bundled(input.threads, frame.open);
  const time = timeScale(input, frame.left + 12, frame.width - 16);
  const lanes = placeLanes(input.lanes, threads);
  const rows = rowsOf(input.lanes, threads, lanes);
  const placed = threads.map(({ thread, count }) => placeThread(thread, count, rows, time.x, input));
  const end = lanes.at(-1);
  return {
    ...{ width: frame.width, left: frame.left, lanes, folds: time.folds, ticks: time.ticks },
    height: end ? end.y + end.height + FOOT : TOP,
    threads: apart(placed),
  };
}

interface Bundle {
  readonly thread: PictureThread;
  readonly count: number;
}

/**
 * Up to 30 threads stand by themselves. Of more, those of one garment are one where they went the same way at the same
 * times: a layer that lay elsewhere, or was reached at another moment, keeps its own thread and knot.
 */
function bundled(threads: readonly PictureThread[], open: string | undefined): readonly Bundle[] {
  if (threads.length < BUNDLED_FROM) return threads.map((thread) => ({ thread, count: 1 }));
  const groups = Map.groupBy(threads, (thread) => (thread.garment === open ? thread.key : wayOf(thread)));
  return [...groups.values()].flatMap((group) => {
    const [thread] = group;
    return thread ? [{ thread, count: group.length }] : [];
  });
}

function wayOf({ garment, stays, cleanings, knot }: PictureThread): string {
  const way = stays.map(({ lane, from, to, state }) => [lane, from, to ?? null, state]);
  return JSON.stringify([garment, way, cleanings, knot?.at ?? null]);
}

function timeScale(input: PictureInput, x0: number, x1: number) {
  const within = (at: number) => Math.min(Math.max(at, input.from), input.to);
  const moments = input.threads.flatMap(({ stays, cleanings, knot }) => [
    ...stays.flatMap(({ from, to }) => (to === undefined ? [from] : [from, to])),
    ...cleanings,
    ...(knot ? [knot.at] : []),
  ]);
  const marks = [...new Set([input.from, input.to, ...moments.map(within)])].sort((a, b) => a - b);
  const segments = marks.slice(1).map((to, at) => ({ from: marks[at] as number, to }));
  const isIdle = (segment: { from: number; to: number }) => segment.to - segment.from > IDLE_MS;
  const busy = segments.filter((segment) => !isIdle(segment));
  const busyMs = busy.reduce((sum, { from, to }) => sum + to - from, 0);
  const free = x1 - x0 - (segments.length - busy.length) * FOLD - busy.length * LEAST_SEGMENT;
  const folds: Fold[] = [];
  const starts = new Map<number, number>();
  let x = x0;
  for (const segment of segments) {
    starts.set(segment.from, x);
    const length = segment.to - segment.from;
    const share = busyMs > 0 ? (Math.max(free, 0) * length) / busyMs : 0;
    const width = isIdle(segment) ? FOLD : LEAST_SEGMENT + share;
    if (isIdle(segment)) folds.push({ x, width, lengthMs: length, row: rowAfter(folds.at(-1), x) });
    x += width;
  }
  starts.set(marks.at(-1) ?? input.to, x);
  const place = (at: number): number => {
    const moment = within(at);
    const known = starts.get(moment);
    if (known !== undefined) return known;
    const index = marks.findLastIndex((mark) => mark <= moment);
    const [from, to] = [marks[index] as number, marks[index + 1] as number];
    const [left, right] = [starts.get(from) as number, starts.get(to) as number];
    return left + ((right - left) * (moment - from)) / (to - from);
  };
  return { x: place, folds, ticks: ticksOf(marks, place, x1 - TICK_LABEL) };
}

function rowAfter(before: Fold | undefined, x: number): 0 | 1 {
  return before && before.row === 0 && x - before.x < FOLD_LABEL ? 1 : 0;
}

/** Moments that are told along the time: no two nearer than a label is wide, and none where it would be cut off. */
function ticksOf(
  marks: readonly number[],
  x: (at: number) => number,
  last: number,
): { x: number; at: number }[] {
  const ticks: { x: number; at: number }[] = [];
  for (const at of marks) {
    const before = ticks.at(-1);
    if (x(at) > last) break;
    if (!before || x(at) - before.x >= TICK_LABEL) ticks.push({ x: x(at), at });
  }
  return ticks;
}

function visitsOf(lane: string, threads: readonly Bundle[]): readonly Bundle[] {
  return threads.filter(({ thread }) => thread.stays.some((stay) => stay.lane === lane));
}

function placeLanes(lanes: readonly PictureLane[], threads: readonly Bundle[]): readonly PlacedPictureLane[] {
  let y = TOP;
  return lanes.map((lane) => {
    const height = Math.max(46, LANE_INSET * 2 + (visitsOf(lane.key, threads).length - 1) * THREAD_PITCH);
    const placed = { ...lane, y, height };
    y += height + LANE_GAP;
    return placed;
  });
}

/** A thread keeps its place in a lane however often it comes back. */
function rowsOf(
  lanes: readonly PictureLane[],
  threads: readonly Bundle[],
  placed: readonly PlacedPictureLane[],
) {
  const rows = new Map<string, number>();
  for (const [at, lane] of lanes.entries()) {
    const top = placed[at]?.y ?? TOP;
    for (const [row, { thread }] of visitsOf(lane.key, threads).entries()) {
      rows.set(`${lane.key} ${thread.key}`, top + LANE_INSET + row * THREAD_PITCH);
    }
  }
  return rows;
}

function placeThread(
  thread: PictureThread,
  count: number,
  rows: ReadonlyMap<string, number>,
  x: (at: number) => number,
  { from, to }: PictureInput,
): PlacedThread {
  const shown = thread.stays.filter((stay) => stay.from <= to && (stay.to ?? to) >= from);
  const legs = shown.flatMap((stay) => {
    const y = rows.get(`${stay.lane} ${thread.key}`);
    return y === undefined ? [] : [{ x0: x(stay.from), x1: x(stay.to ?? to), y, state: stay.state }];
  });
  const yAt = (at: number) => {
    const stay = shown.findLast((one) => one.from <= at && at <= (one.to ?? to)) ?? shown[0];
    return stay ? rows.get(`${stay.lane} ${thread.key}`) : undefined;
  };
  const moves = legs.slice(1).flatMap((leg, at) => {
    const before = legs[at];
    return before && before.y !== leg.y
      ? [{ x: leg.x0, y0: before.y, y1: leg.y, state: lesserOf(before.state, leg.state) }]
      : [];
  });
  // A cleaning ends the stay in which it was done, so its tick is where the piece was cleaned, not where it went.
  const ticks = thread.cleanings.flatMap((at) => {
    const stay = shown.find((one) => one.from <= at && at <= (one.to ?? to));
    const y = at < from || at > to || !stay ? undefined : rows.get(`${stay.lane} ${thread.key}`);
    return y === undefined ? [] : [{ x: x(at), y }];
  });
  const knotY = thread.knot && yAt(thread.knot.at);
  return {
    ...{ key: thread.key, count, legs, moves, ticks },
    ...(thread.knot && knotY !== undefined
      ? { knot: { x: x(thread.knot.at), y: knotY, rank: thread.knot.rank } }
      : {}),
  };
}

function lesserOf(one: PictureState, other: PictureState): PictureState {
  const states: readonly PictureState[] = ["not reached", "possibly reached", "was there"];
  return states.find((state) => state === one || state === other) ?? one;
}

/** Knots of one moment stand side by side, so that each can be read. */
function apart(threads: readonly PlacedThread[]): readonly PlacedThread[] {
  const taken: { x: number; y: number }[] = [];
  return threads.map((thread) => {
    if (!thread.knot) return thread;
    const { y, rank } = thread.knot;
    let x = thread.knot.x;
    while (taken.some((other) => Math.abs(other.x - x) < KNOT_PITCH && Math.abs(other.y - y) < KNOT_PITCH))
      x += KNOT_PITCH;
    taken.push({ x, y });
    return { ...thread, knot: { x, y, rank } };
  });
}
