import { expect, test } from "vitest";
import type { Card } from "../../labels/layout/card-face.ts";
import { PRINTERS } from "../../labels/layout/printer.ts";
import { ACTION_CARDS as ACTIONS } from "../../server/domain/register/policy.ts";
import { rasterise, rasterisersHere, readDataMatrices, readersHere, textOfPages } from "./printed-pages.ts";
import { drawnCards, someNumbers } from "./runs-to-print.ts";

function everyCard(): readonly Card[] {
  const numbers = [...someNumbers(ACTIONS.length + 5)];
  const next = () => {
    const number = numbers.shift();
    if (number === undefined) throw new Error("too few numbers");
    return number;
  };
  return [
    ...ACTIONS.map((action): Card => ({ card: "action", action, number: next() })),
    { card: "place", place: "Rack B2", number: next() },
    { card: "place", place: "Station 3 gear room, north wall", number: next() },
    { card: "place", place: "Gerätehaus Süd Łódź", number: next() },
    { card: "member", number: next() },
    { card: "badge", number: next() },
  ];
}

for (const printer of [PRINTERS["203"], PRINTERS["300"]])
  for (const tool of rasterisersHere)
    test(`${tool} at ${printer.name}: each reader reads every kind of card as the number alone`, async () => {
      const cards = everyCard();
      const [pdf = new Uint8Array()] = await drawnCards({ cards, media: "single", printer });
      const rasters = await rasterise(pdf, printer.dotsPerMm, tool);
      for (const reader of readersHere) {
        const read = await Promise.all(rasters.map((raster) => readDataMatrices(raster, reader)));
        expect(read, reader).toEqual(cards.map(({ number }) => [number]));
      }
    });

for (const media of ["A4", "Letter"] as const)
  test(`${media}: four cards stand on a sheet, and all of them are read`, async () => {
    const cards = everyCard();
    const [pdf = new Uint8Array()] = await drawnCards({ cards, media, printer: PRINTERS["300"] });
    const rasters = await rasterise(pdf, PRINTERS["300"].dotsPerMm, "pdfjs");
    expect(rasters).toHaveLength(Math.ceil(cards.length / 4));
    const read = await Promise.all(rasters.map((raster) => readDataMatrices(raster, "zxing-wasm")));
    expect(read.flat().sort()).toEqual(cards.map(({ number }) => number).sort());
  });

test("a card says its mode in the words of the tape, and a place card says the place", async () => {
  const cards = everyCard();
  const [pdf = new Uint8Array()] = await drawnCards({ cards, media: "single", printer: PRINTERS["203"] });
  const headings = (await textOfPages(pdf)).map((words) => words.split("|")[0]);
  expect(headings).toEqual([
    "Look up",
    "Turn in, soiled",
    "Turn in",
    "Install liner or DRD",
    "Separate",
    "Attach tag",
    "As found",
    "Record a wash",
    "Place wiped",
    "Lay out to reassemble",
    "Confirm",
    "Clear",
    "Transfer to Rack B2",
    "Transfer to Station 3",
    "Transfer to Gerätehaus",
    "Issue to a member",
    "Badge",
  ]);
});

test("member cards and badges carry their number and words that are the same for everybody", async () => {
  const [a, b] = someNumbers(2);
  if (a === undefined || b === undefined) throw new Error("too few numbers");
  for (const card of ["member", "badge"] as const) {
    const cards = [
      { card, number: a },
      { card, number: b },
    ];
    const [pdf = new Uint8Array()] = await drawnCards({ cards, media: "single", printer: PRINTERS["203"] });
    const [first = "", second = ""] = await textOfPages(pdf);
    const without = (words: string, number: string) => words.replace(/[|\s]/g, "").replace(number, "");
    expect(without(first, a)).toBe(without(second, b));
    expect(first.replace(/[|\s]/g, "")).toContain(a);
  }
});
