import { expect, test } from "vitest";
import { type Note, SCORES } from "./sound-score.ts";

const all = Object.entries(SCORES);
const isRising = (notes: readonly Note[]) =>
  notes.every((note, index) => note.hz >= (notes[index - 1]?.hz ?? 0));

test.each(all)("%s stays within 500 to 3000 Hz, its wavering included", (_, { notes }) => {
  for (const { hz, waver } of notes) {
    expect(hz - (waver?.hz ?? 0)).toBeGreaterThanOrEqual(500);
    expect(hz + (waver?.hz ?? 0)).toBeLessThanOrEqual(3_000);
  }
});
test.each(all)("%s plays its notes one after the other and is over within a second", (_, { notes }) => {
  notes.forEach((note, index) => {
    const before = notes[index - 1];
    if (before) expect(note.startMs).toBeGreaterThan(before.startMs + before.lengthMs);
    expect(note.startMs + note.lengthMs).toBeLessThanOrEqual(1_000);
  });
});
test("no two sounds share their rhythm, so they can be told apart without hearing pitch", () => {
  const rhythms = all.map(([, { notes }]) =>
    notes.map(({ startMs, lengthMs }) => `${startMs}+${lengthMs}`).join(" "),
  );
  expect(new Set(rhythms).size).toBe(4);
  const feels = all.map(([, { vibration }]) => vibration.join(" "));
  expect(new Set(feels).size).toBe(4);
});
test("a stitch is one tick of 40 ms, a knot two rising notes, a snap three knocks, slack one long wavering note", () => {
  expect(SCORES.stitch.notes.map(({ lengthMs }) => lengthMs)).toEqual([40]);
  expect(SCORES.knot.notes).toHaveLength(2);
  expect(isRising(SCORES.knot.notes)).toBe(true);
  expect(SCORES.snap.notes.map(({ lengthMs }) => lengthMs < 100)).toEqual([true, true, true]);
  expect(SCORES.slack.notes[0]?.lengthMs).toBeGreaterThan(500);
  expect(SCORES.slack.notes[0]?.waver).toBeDefined();
});
