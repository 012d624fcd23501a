import { expect, test } from "vitest";
import { drawTagsPdf } from "../../labels/draw/draw-tags.ts";
import { symbolOfNumber } from "../../labels/draw/symbol-matrix.ts";
import { measureText } from "../../labels/draw/text-runs.ts";
import { SHEETS, type TagMedia } from "../../labels/layout/media.ts";
import { CLEAR_MODULES, type PlacedPage, SYMBOL_MODULES } from "../../labels/layout/placed-box.ts";
import { PRINTERS, type Printer } from "../../labels/layout/printer.ts";
import { spareTagContent, type TagContent } from "../../labels/layout/tag-content.ts";
import { layoutTag } from "../../labels/layout/tag-label.ts";
import { placeTags } from "../../labels/layout/tag-pages.ts";
import { formatTagNumber } from "../../server/domain/tags/tag-number.ts";
import {
  isDark,
  type Raster,
  rasterise,
  rasterisersHere,
  readDataMatrices,
  readersHere,
  textOfPages,
} from "./printed-pages.ts";
import { drawnTags, someNumbers, tagsOfEachLook } from "./runs-to-print.ts";

const ROLL: TagMedia = { media: "roll", cutGapMm: 0 };
const HEADS = [PRINTERS["203"], PRINTERS["300"]];

function placed(tags: readonly TagContent[], media: TagMedia, printer: Printer): readonly PlacedPage[] {
  const labels = tags.map((tag) => layoutTag(tag, printer, measureText)).filter((label) => "boxes" in label);
  return placeTags(labels, media, printer);
}

/** Counts the dots in which a raster differs from its symbols and their clear zones: 0 when every module is whole. */
function wrongDots(raster: Raster, page: PlacedPage): number {
  let wrong = 0;
  for (const { x, y, label } of page.labels)
    for (const box of label.boxes) {
      if (box.box !== "symbol") continue;
      const { dark } = symbolOfNumber(box.number);
      const clear = CLEAR_MODULES * box.module;
      const side = SYMBOL_MODULES * box.module;
      for (let dy = -clear; dy < side + clear; dy += 1)
        for (let dx = -clear; dx < side + clear; dx += 1) {
          const isInside = dx >= 0 && dy >= 0 && dx < side && dy < side;
          const module = Math.floor(dy / box.module) * SYMBOL_MODULES + Math.floor(dx / box.module);
          const expected = isInside && dark[module] === true;
          if (isDark(raster, x + box.x + dx, y + box.y + dy) !== expected) wrong += 1;
        }
    }
  return wrong;
}

for (const printer of HEADS)
  for (const tool of rasterisersHere) {
    test(`${tool} at ${printer.name}: every module of a roll tag is whole dots and nothing stands in the clear zone`, async () => {
      const tags = tagsOfEachLook();
      const pages = placed(tags, ROLL, printer);
      const [pdf = new Uint8Array()] = await drawnTags({ tags, media: ROLL, printer });
      const rasters = await rasterise(pdf, printer.dotsPerMm, tool);
      expect(rasters.map(({ width, height }) => [width, height])).toEqual(
        pages.map(({ width, height }) => [width, height]),
      );
      expect(rasters.map((raster, at) => wrongDots(raster, pages[at] as PlacedPage))).toEqual(
        tags.map(() => 0),
      );
    });

    test(`${tool} at ${printer.name}: each reader reads each roll tag as the number alone`, async () => {
      const tags = tagsOfEachLook();
      const [pdf = new Uint8Array()] = await drawnTags({ tags, media: ROLL, printer });
      const rasters = await rasterise(pdf, printer.dotsPerMm, tool);
      for (const reader of readersHere) {
        const read = await Promise.all(rasters.map((raster) => readDataMatrices(raster, reader)));
        expect(read, reader).toEqual(tags.map(({ number }) => [number]));
      }
    });
  }

for (const sheet of Object.values(SHEETS))
  for (const printer of HEADS)
    test(`${sheet.name} at ${printer.name}: a part-used sheet is filled before the next, and every tag is whole dots and is read`, async () => {
      const places = sheet.columns * sheet.rows;
      const media: TagMedia = { media: "sheet", sheet, used: 4 };
      const tags = [...tagsOfEachLook(), ...someNumbers(places - 8).map(spareTagContent)];
      const pages = placed(tags, media, printer);
      const [pdf = new Uint8Array()] = await drawnTags({ tags, media, printer });
      const rasters = await rasterise(pdf, printer.dotsPerMm, "pdfjs");
      expect(pages.map(({ labels }) => labels.length)).toEqual([places - 4, 2]);
      expect(rasters).toHaveLength(2);
      const numbers: string[] = [];
      for (const [at, raster] of rasters.entries()) {
        expect(wrongDots(raster, pages[at] as PlacedPage)).toBe(0);
        numbers.push(...(await readDataMatrices(raster, "zxing-wasm")));
      }
      expect(numbers.sort()).toEqual(tags.map(({ number }) => number).sort());
    });

test("the words of a tag are text of embedded fonts, letters beyond Latin included", async () => {
  const tags = tagsOfEachLook();
  const [pdf = new Uint8Array()] = await drawnTags({ tags, media: ROLL, printer: PRINTERS["203"] });
  const pages = await textOfPages(pdf);
  for (const [at, tag] of tags.entries()) {
    const words = (pages[at] ?? "").replaceAll("|", " ").replace(/\s+/g, "");
    const expected = `${formatTagNumber(tag.number)}${tag.kindLine ?? ""}${tag.sizeLine ?? ""}`;
    expect(words).toBe(expected.replace(/\s+/g, ""));
  }
  expect(pages[4]).toContain("Жар");
});

test("a spare tag carries its number and nothing else", async () => {
  const tags = someNumbers(1).map(spareTagContent);
  const [pdf = new Uint8Array()] = await drawnTags({ tags, media: ROLL, printer: PRINTERS["203"] });
  const [words = ""] = await textOfPages(pdf);
  expect(words.replace(/[\s|]/g, "")).toBe(tags[0]?.number);
});

test("the same run gives the same bytes, so a print can be checked against an earlier one", async () => {
  const run = { tags: tagsOfEachLook(), media: ROLL, printer: PRINTERS["300"] };
  const [first = new Uint8Array()] = await drawnTags(run);
  await new Promise((resolve) => setTimeout(resolve, 1_100));
  const [second = new Uint8Array()] = await drawnTags(run);
  expect(Buffer.from(first).equals(Buffer.from(second))).toBe(true);
});

test("2,100 tags are three files of at most 1,000, and every one of them is read back", async () => {
  const tags = someNumbers(2_100).map(spareTagContent);
  const run = await drawTagsPdf({ tags, media: ROLL, printer: PRINTERS["203"] });
  if ("refusals" in run) throw new Error("not printed");
  expect(run.files.map(({ start, end }) => [start, end])).toEqual([
    [0, 1_000],
    [1_000, 2_000],
    [2_000, 2_100],
  ]);
  const last = await rasterise(run.files[2]?.bytes ?? new Uint8Array(), 8, "pdfjs");
  const read = await Promise.all(last.map((raster) => readDataMatrices(raster, "zxing-wasm")));
  expect(read.flat()).toEqual(tags.slice(2_000).map(({ number }) => number));
});

test("on sheets a file ends with a full sheet, also after a part-used first one", async () => {
  const tags = someNumbers(1_100).map(spareTagContent);
  const media: TagMedia = { media: "sheet", sheet: SHEETS["A4 3 × 7"], used: 5 };
  const run = await drawTagsPdf({ tags, media, printer: PRINTERS["300"] });
  if ("refusals" in run) throw new Error("not printed");
  expect(run.files.map(({ start, end }) => [start, end])).toEqual([
    [0, 47 * 21 - 5],
    [47 * 21 - 5, 1_100],
  ]);
});
