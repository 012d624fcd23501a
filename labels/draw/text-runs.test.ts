import { expect, test } from "vitest";
import { ACTION_CARDS } from "../../server/domain/register/policy.ts";
import { TAG_ALPHABET } from "../../server/domain/tags/tag-number.ts";
import { faceOfCard } from "../layout/card-face.ts";
import { fontOfFace } from "./font-files.ts";
import { measureText, splitRuns } from "./text-runs.ts";

test("the number's face is one width for every symbol and its zero has an outline of its own", () => {
  for (const symbol of TAG_ALPHABET) expect(measureText(symbol, "number")).toEqual({ width: 0.632 });
  const { metrics } = fontOfFace("number", 0);
  const contours = (codePoint: number) =>
    metrics.glyphForCodePoint(codePoint).path.toSVG().split("M").length - 1;
  expect([contours(0x4f), contours(0x30)]).toEqual([2, 3]);
});

test("a text is split where another font has to draw on", () => {
  const found = splitRuns("Łódź Жар", "line");
  if ("code" in found) throw new Error(found.code);
  expect(found.runs.map(({ font, text }) => [font, text])).toEqual([
    [1, "Ł"],
    [0, "ód"],
    [1, "ź"],
    [0, " "],
    [2, "Жар"],
  ]);
});

test("the width of a text is the sum of its runs, so what fits on screen fits on paper", () => {
  const found = splitRuns("Łódź Жар", "line");
  if ("code" in found) throw new Error(found.code);
  const sum = found.runs.reduce((total, run) => total + run.width, 0);
  expect(measureText("Łódź Жар", "line")).toEqual({ width: sum });
  expect(sum).toBeGreaterThan(0);
});

test("no font of any face has a Chinese character, and that is a fault instead of a box", () => {
  for (const face of ["number", "line", "heading", "body"] as const)
    expect(measureText("Jacke 漢", face)).toEqual({
      code: "text-has-no-glyph",
      text: "Jacke 漢",
      character: "漢",
      codePoint: 0x6f22,
    });
});

test("scripts that need shaping are a fault even where a font has the letters", () => {
  expect(measureText("معطف", "line")).toMatchObject({ code: "text-needs-shaping" });
  expect(measureText("מעיל", "line")).toMatchObject({ code: "text-needs-shaping" });
});

test("every word that the cards carry has its glyphs in the leading font", () => {
  const number = "C7K3F92CXTKK" as Parameters<typeof faceOfCard>[0]["number"];
  const actions = ACTION_CARDS;
  const faces = [
    ...actions.map((action) =>
      faceOfCard({ card: "action", action, number } as Parameters<typeof faceOfCard>[0]),
    ),
    faceOfCard({ card: "place", place: "Rack B2", number }),
    faceOfCard({ card: "member", number }),
    faceOfCard({ card: "badge", number }),
  ];
  for (const { heading, lines } of faces)
    for (const text of [heading, ...lines]) {
      const found = splitRuns(text, "body");
      if ("code" in found) throw new Error(found.code);
      expect(found.runs.map(({ font }) => font)).toEqual([0]);
    }
});
