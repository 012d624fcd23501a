import { expect, test } from "vitest";
import { decodedSize, videoUnderBox } from "./aiming-box.ts";

const HD = { width: 1920, height: 1080 };

test("a wide video in a 4:3 picture loses its sides before the box is cut", () => {
  // Visible are 1440 of 1920 pixels, from 240 on.
  expect(videoUnderBox(HD, { width: 800, height: 600 })).toEqual({
    left: 456,
    top: 259,
    width: 1008,
    height: 562,
  });
});
test("an upright video in a 4:3 picture loses top and bottom", () => {
  const cut = videoUnderBox({ width: 1080, height: 1920 }, { width: 400, height: 300 });
  expect(cut).toEqual({ left: 162, top: 749, width: 756, height: 421 });
});
test("a picture that is not laid out yet counts as the whole video", () => {
  expect(videoUnderBox(HD, { width: 0, height: 0 })).toEqual({
    left: 288,
    top: 259,
    width: 1344,
    height: 562,
  });
});
test("the cut is handed on at no more than 1024 pixels across and never enlarged", () => {
  expect(decodedSize({ width: 2688, height: 1124 })).toEqual({ width: 1024, height: 428 });
  expect(decodedSize({ width: 448, height: 250 })).toEqual({ width: 448, height: 250 });
});
