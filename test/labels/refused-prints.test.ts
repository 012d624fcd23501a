import { expect, test } from "vitest";
import { drawCardsPdf } from "../../labels/draw/draw-cards.ts";
import { drawTagsPdf } from "../../labels/draw/draw-tags.ts";
import { SHEETS } from "../../labels/layout/media.ts";
import { sayPrintRefusal } from "../../labels/layout/print-refusal.ts";
import { PRINTERS } from "../../labels/layout/printer.ts";
import { spareTagContent, type TagContent, tagContentOfPiece } from "../../labels/layout/tag-content.ts";
import { aNumber, someNumbers } from "./runs-to-print.ts";

const ROLL = { media: "roll", cutGapMm: 0 } as const;
const printer = PRINTERS["203"];
const withLine = (ten: string, kindLine: string): TagContent => ({
  number: aNumber(ten),
  kindLine,
  edge: "grid",
});

async function refusalsOf(tags: readonly TagContent[]) {
  const run = await drawTagsPdf({ tags, media: ROLL, printer });
  return "refusals" in run ? run.refusals : [];
}

test("a run is refused whole with every reason: too wide, no glyph, right to left, a number twice", async () => {
  const refusals = await refusalsOf([
    withLine("C7K3F92CXT", "Coat liner Tarnholt Ridge 300 LK-2"),
    withLine("KD0RT429TH", "Coat shell 漢"),
    withLine("J06N3H4K3V", "Coat shell שלום"),
    spareTagContent(aNumber("F123456789")),
    spareTagContent(aNumber("F123456789")),
  ]);
  expect(refusals.map(({ code }) => code)).toEqual([
    "text-does-not-fit",
    "text-has-no-glyph",
    "text-needs-shaping",
    "number-twice",
  ]);
});

test("a text that does not fit says how wide it is, how much room there is and what to do", async () => {
  const [refusal] = await refusalsOf([withLine("C7K3F92CXT", "Coat liner Tarnholt Ridge 300 LK-2")]);
  if (refusal === undefined) throw new Error("printed");
  const { what, why, next } = sayPrintRefusal(refusal);
  expect(what).toBe("Not printed: tag C7K3 F92C XTKK.");
  expect(why).toMatch(
    /^“Coat liner Tarnholt Ridge 300 LK-2” is \d\d\.\d mm wide and there is room for 22\.7 mm\.$/,
  );
  expect(next).toContain("without the model's name");
});

test("the fix that a refusal names prints: without the model's name, or the number alone", async () => {
  const piece = {
    kind: { name: "Coat liner", layer: "liner" },
    modelName: "Tarnholt Ridge 300",
    linerCode: "LK-2",
  };
  const number = aNumber("C7K3F92CXT");
  expect(await refusalsOf([tagContentOfPiece(number, piece)])).toHaveLength(1);
  expect(await refusalsOf([tagContentOfPiece(number, piece, "without the model")])).toEqual([]);
  expect(await refusalsOf([tagContentOfPiece(number, piece, "number alone")])).toEqual([]);
});

test("a missing glyph is named by character and code point, never printed as a box", async () => {
  const [refusal] = await refusalsOf([withLine("C7K3F92CXT", "Coat 漢")]);
  expect(refusal).toMatchObject({ code: "text-has-no-glyph", character: "漢", codePoint: 0x6f22 });
  if (refusal) expect(sayPrintRefusal(refusal).why).toContain("U+6F22");
});

test("a letter typed as base and accent prints as the composed letter", async () => {
  expect(await refusalsOf([withLine("C7K3F92CXT", "Coat Gården".normalize("NFD"))])).toEqual([]);
  const [refusal] = await refusalsOf([withLine("C7K3F92CXT", "Coat x̌")]);
  expect(refusal).toMatchObject({ code: "text-needs-shaping" });
});

test("a sheet that is too small, off the paper or used up is refused", async () => {
  const tags = someNumbers(1).map(spareTagContent);
  const sheet = { ...SHEETS["A4 3 × 7"], name: "own sheet", labelWidthMm: 48.5, leftMm: 60 };
  const run = await drawTagsPdf({ tags, media: { media: "sheet", sheet, used: 21 }, printer });
  expect("refusals" in run && run.refusals.map(({ code }) => code)).toEqual([
    "label-too-small",
    "labels-leave-the-paper",
    "sheet-used-up",
  ]);
});

test("an empty run is refused", async () => {
  expect(await drawTagsPdf({ tags: [], media: ROLL, printer })).toEqual({
    refusals: [{ code: "nothing-to-print" }],
  });
  expect(await drawCardsPdf({ cards: [], media: "single", printer })).toEqual({
    refusals: [{ code: "nothing-to-print" }],
  });
});

test("a place whose name does not fit in two lines is refused with its number", async () => {
  const number = aNumber("C7K3F92CXT");
  const place = "the north wall of the gear room behind the bay doors at Station 3";
  const run = await drawCardsPdf({ cards: [{ card: "place", place, number }], media: "single", printer });
  expect("refusals" in run && run.refusals).toMatchObject([
    { code: "text-does-not-fit", on: "card", number },
  ]);
});
