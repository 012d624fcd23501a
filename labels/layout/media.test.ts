import { expect, test } from "vitest";
import { faultsOfMedia, PAPERS, SHEETS } from "./media.ts";
import type { PlacedLabel } from "./placed-box.ts";
import { PRINTERS } from "./printer.ts";
import { TAG_MM } from "./tag-label.ts";
import { placeTags, tagsPerPage } from "./tag-pages.ts";

const printer = PRINTERS["300"];
const aLabel = (): PlacedLabel => ({ width: 591, height: 295, boxes: [] });

test("tag facts 4.2: every sheet that is offered holds a 50 × 25 mm tag and stays on its paper", () => {
  for (const sheet of Object.values(SHEETS))
    expect(faultsOfMedia({ media: "sheet", sheet, used: 0 })).toEqual([]);
  expect(Object.values(SHEETS).map((sheet) => tagsPerPage({ media: "sheet", sheet, used: 0 }))).toEqual([
    21, 24, 30,
  ]);
});

test("tag facts 4.2: the sheet of 4 × 11 labels is 1.5 mm too narrow for a tag and is refused", () => {
  const sheet = {
    name: "A4 4 × 11",
    paper: "A4",
    columns: 4,
    rows: 11,
    labelWidthMm: 48.5,
    labelHeightMm: 25.4,
    pitchXMm: 48.5,
    pitchYMm: 25.4,
    leftMm: 8,
    topMm: 8.8,
  } as const;
  expect(faultsOfMedia({ media: "sheet", sheet, used: 0 })).toEqual([
    { code: "label-too-small", sheet: "A4 4 × 11", widthMm: 48.5, heightMm: 25.4 },
  ]);
});

test("places that are not whole or beyond the sheet cannot be used already", () => {
  for (const used of [-1, 21, 2.5])
    expect(faultsOfMedia({ media: "sheet", sheet: SHEETS["A4 3 × 7"], used })).toMatchObject([
      { code: "sheet-used-up", places: 21 },
    ]);
});

test("on a roll a page is one tag and the cut gap", () => {
  const [page] = placeTags([aLabel()], { media: "roll", cutGapMm: 3 }, PRINTERS["203"]);
  expect(page).toMatchObject({ width: 591, height: 295 + 24, labels: [{ x: 0, y: 0 }] });
});

test("each tag lies inside its own label of the sheet, at whole dots, row by row after the used places", () => {
  for (const sheet of Object.values(SHEETS)) {
    const places = sheet.columns * sheet.rows;
    const labels = Array.from({ length: places }, aLabel);
    const pages = placeTags(labels, { media: "sheet", sheet, used: 2 }, printer);
    expect(pages.map((page) => page.labels.length)).toEqual([places - 2, 2]);
    for (const [pageAt, page] of pages.entries()) {
      expect(page.width).toBe(Math.round(PAPERS[sheet.paper].widthMm * printer.dotsPerMm));
      for (const [index, { x, y }] of page.labels.entries()) {
        const at = pageAt === 0 ? index + 2 : index;
        const left = sheet.leftMm + (at % sheet.columns) * sheet.pitchXMm;
        const top = sheet.topMm + Math.floor(at / sheet.columns) * sheet.pitchYMm;
        expect(Number.isInteger(x) && Number.isInteger(y)).toBe(true);
        const dot = 1 / printer.dotsPerMm;
        expect(x * dot).toBeGreaterThanOrEqual(left - dot);
        expect(x * dot + TAG_MM.width).toBeLessThanOrEqual(left + sheet.labelWidthMm + dot);
        expect(y * dot).toBeGreaterThanOrEqual(top - dot);
        expect(y * dot + TAG_MM.height).toBeLessThanOrEqual(top + sheet.labelHeightMm + dot);
      }
    }
  }
});
