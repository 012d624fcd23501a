import { expect, test } from "vitest";
import { countFrame, noVotes } from "./vote.ts";

const NUMBER = "C7K3F92CXTKK";
const OTHER = "F1234567896F";

/** Counts frames 50 ms apart and gives what was reported. */
function reported(frames: readonly (string | undefined)[], everyMs = 50): string[] {
  let state = noVotes;
  return frames.flatMap((text, index) => {
    const counted = countFrame(state, text, index * everyMs);
    state = counted.state;
    return counted.isAccepted && text !== undefined ? [text] : [];
  });
}

test("a number in one frame is not yet believed", () => {
  expect(reported([NUMBER, undefined, undefined])).toEqual([]);
});
test("a number in two of five frames is reported at the second", () => {
  expect(reported([NUMBER, undefined, undefined, undefined, NUMBER])).toEqual([NUMBER]);
});
test("a number in two of six frames is not believed", () => {
  expect(reported([NUMBER, undefined, undefined, undefined, undefined, NUMBER])).toEqual([]);
});
test("one misread between does not count for or against", () => {
  expect(reported([NUMBER, OTHER, NUMBER])).toEqual([NUMBER]);
});
test("a tag that stays in view for ten seconds is reported once", () => {
  expect(reported(Array(200).fill(NUMBER))).toEqual([NUMBER]);
});
test("a tag that flickers in view is reported once", () => {
  expect(reported(Array.from({ length: 200 }, (_, index) => (index % 4 === 0 ? NUMBER : undefined)))).toEqual(
    [NUMBER],
  );
});
test("a tag that was away for two seconds is reported again", () => {
  const away = Array(40).fill(undefined);
  expect(reported([NUMBER, NUMBER, ...away, NUMBER, NUMBER])).toEqual([NUMBER, NUMBER]);
});
test("the next tag is reported at once while the last is still quiet", () => {
  expect(reported([NUMBER, NUMBER, OTHER, OTHER, NUMBER, NUMBER])).toEqual([NUMBER, OTHER]);
});
test("the link and the Data Matrix of one label are one tag", () => {
  const link = `HTTPS://T.EXAMPLE.ORG/${NUMBER}`;
  expect(reported([NUMBER, link, link, NUMBER])).toHaveLength(1);
});
