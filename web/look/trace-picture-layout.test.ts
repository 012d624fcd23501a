import { expect, test } from "vitest";
import {
  FOLD,
  KNOT_PITCH,
  layoutPicture,
  type PictureInput,
  type PictureThread,
  THREAD_PITCH,
} from "./trace-picture-layout.ts";

const HOUR = 3_600_000;
const FRAME = { width: 1000, left: 150 };
const lane = (key: string, edge: "closed" | "shared" | "apart" = "shared") => ({
  key,
  name: key,
  sort: "rack",
  edge,
});
function thread(key: string, more: Partial<PictureThread> = {}): PictureThread {
  const stays = [{ lane: "A", from: 0, to: HOUR, state: "was there" as const }];
  return { key, garment: key, stays, cleanings: [], ...more };
}
function picture(threads: readonly PictureThread[], to = 2 * HOUR): PictureInput {
  return { lanes: [lane("A", "closed"), lane("B")], threads, from: 0, to };
}

test("idle time is folded to 22 px however long it lasts, and time goes on to the right", () => {
  const late = thread("1", {
    stays: [
      { lane: "A", from: 0, to: HOUR, state: "was there" },
      { lane: "B", from: 500 * HOUR, to: 501 * HOUR, state: "was there" },
    ],
  });
  const { folds, threads } = layoutPicture(picture([late], 501 * HOUR), FRAME);
  expect(folds).toMatchObject([{ width: FOLD, lengthMs: 499 * HOUR }]);
  const [first, second] = threads[0]?.legs ?? [];
  expect(second?.x0).toBeCloseTo((first?.x1 ?? 0) + FOLD);
  expect(second?.x1).toBeCloseTo(984);
});

test("threads of a lane lie 9.5 px apart and keep their place when they come back", () => {
  const back = thread("2", {
    stays: [
      { lane: "A", from: 0, to: HOUR / 2, state: "possibly reached" },
      { lane: "B", from: HOUR / 2, to: HOUR, state: "possibly reached" },
      { lane: "A", from: HOUR, state: "possibly reached" },
    ],
  });
  const { threads } = layoutPicture(picture([thread("1"), back]), FRAME);
  const [one, two] = threads;
  const [out, away, home] = two?.legs ?? [];
  expect((out?.y ?? 0) - (one?.legs[0]?.y ?? 0)).toBe(THREAD_PITCH);
  expect(home?.y).toBe(out?.y);
  expect(away?.y).toBeGreaterThan(out?.y ?? 0);
  expect(two?.moves).toHaveLength(2);
});

test("knots of one moment stand side by side", () => {
  const knotted = (key: string, rank: number) => thread(key, { knot: { rank, at: HOUR / 2 } });
  const { threads } = layoutPicture(picture([knotted("1", 1), knotted("2", 2), knotted("3", 3)]), FRAME);
  const xs = threads.map(({ knot }) => knot?.x ?? 0);
  expect([(xs[1] ?? 0) - (xs[0] ?? 0), (xs[2] ?? 0) - (xs[1] ?? 0)]).toEqual([KNOT_PITCH, KNOT_PITCH]);
});

test("up to 30 threads stand by themselves, more are one a garment", () => {
  const many = Array.from({ length: 31 }, (_, at) => thread(String(at), { garment: String(at % 10) }));
  expect(layoutPicture(picture(many.slice(1)), FRAME).threads).toHaveLength(30);
  const { threads } = layoutPicture(picture(many), FRAME);
  expect(threads).toHaveLength(10);
  expect(threads.reduce((sum, { count }) => sum + count, 0)).toBe(31);
});

test("a layer that lay elsewhere keeps its own thread and knot in a bundled picture", () => {
  const many = Array.from({ length: 30 }, (_, at) => thread(String(at), { garment: String(at % 10) }));
  const stays = [{ lane: "B", from: 0, state: "possibly reached" as const }];
  const alone = thread("alone", { garment: "0", stays, knot: { rank: 4, at: HOUR / 2 } });
  const { threads } = layoutPicture(picture([...many, alone]), FRAME);
  expect(threads).toHaveLength(11);
  expect(threads.find(({ key }) => key === "alone")).toMatchObject({ count: 1, knot: { rank: 4 } });
});

test("the garment that is opened is shown in its layers, the others stay bundled", () => {
  const many = Array.from({ length: 31 }, (_, at) => thread(String(at), { garment: String(at % 10) }));
  const { threads } = layoutPicture(picture(many), { ...FRAME, open: "0" });
  expect(threads.filter(({ count }) => count === 1).map(({ key }) => key)).toEqual(["0", "10", "20", "30"]);
  expect(threads).toHaveLength(13);
});

test("a move is drawn as the lesser of the stays that it joins", () => {
  const moved = (before: "was there" | "not reached", after: "possibly reached" | "not reached") =>
    thread("1", {
      stays: [
        { lane: "A", from: 0, to: HOUR, state: before },
        { lane: "B", from: HOUR, state: after },
      ],
    });
  const state = (one: PictureThread) => layoutPicture(picture([one]), FRAME).threads[0]?.moves[0]?.state;
  expect(state(moved("was there", "not reached"))).toBe("not reached");
  expect(state(moved("not reached", "possibly reached"))).toBe("not reached");
  expect(state(moved("was there", "possibly reached"))).toBe("possibly reached");
});

test("a cleaning at the end of a stay is a tick where the piece was cleaned, not where it went", () => {
  const stays = [
    { lane: "A", from: 0, to: HOUR, state: "was there" as const },
    { lane: "B", from: HOUR, state: "not reached" as const },
  ];
  const [one] = layoutPicture(picture([thread("1", { stays, cleanings: [HOUR] })]), FRAME).threads;
  expect(one?.ticks).toEqual([{ x: one?.legs[0]?.x1, y: one?.legs[0]?.y }]);
});

test("lengths of folds near each other stand on two lines", () => {
  const stays = [0, 9, 99].map((at) => ({ lane: "A", from: at * HOUR, state: "was there" as const }));
  const { folds } = layoutPicture(picture([thread("1", { stays })], 200 * HOUR), FRAME);
  expect(folds.map(({ row }) => row)).toEqual([0, 1, 0]);
});

test("a cleaning is a tick on the thread, and what lies outside the window is not drawn", () => {
  const washed = thread("1", { cleanings: [HOUR / 2, 9 * HOUR] });
  const early = thread("2", { stays: [{ lane: "A", from: -3 * HOUR, to: -2 * HOUR, state: "not reached" }] });
  const { threads } = layoutPicture(picture([washed, early]), FRAME);
  expect(threads[0]?.ticks).toHaveLength(1);
  expect(threads[1]?.legs).toEqual([]);
});
