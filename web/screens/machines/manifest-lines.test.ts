import { expect, test } from "vitest";
import { linesOf } from "./manifest-lines.ts";

test("numbers of a manifest are taken once each, however they are parted, with blanks inside", () => {
  expect(linesOf("C7K3 F92C XTKK\n\nHJ9V293903KX, HJ9V293903KX;KD0R T429 TH33 ")).toEqual([
    "C7K3 F92C XTKK",
    "HJ9V293903KX",
    "KD0R T429 TH33",
  ]);
});
