import { PAPERS, type SheetGeometry, type TagMedia } from "./media.ts";
import type { PlacedLabel, PlacedPage } from "./placed-box.ts";
import { dots, type Printer } from "./printer.ts";

/** Counts the tags that one page takes. */
export function tagsPerPage(media: TagMedia): number {
  return media.media === "roll" ? 1 : media.sheet.columns * media.sheet.rows;
}

/**
 * Puts laid-out tags on pages, each at whole dots, in the order given. On a roll each page is one tag and the cut
 * gap; on a sheet the tag stands in the middle of its label, after the places that are already used. Page sizes are
 * whole dots, so that the dots of every symbol lie on the same grid from each edge.
 */
export function placeTags(
  labels: readonly PlacedLabel[],
  media: TagMedia,
  printer: Printer,
): readonly PlacedPage[] {
  return media.media === "roll"
    ? labels.map((label) => onRoll(label, media.cutGapMm, printer))
    : onSheets(labels, media.sheet, media.used, printer);
}

function onRoll(label: PlacedLabel, cutGapMm: number, printer: Printer): PlacedPage {
  return {
    width: label.width,
    height: label.height + dots(cutGapMm, printer),
    labels: [{ x: 0, y: 0, label }],
    marks: [],
  };
}

function onSheets(
  labels: readonly PlacedLabel[],
  sheet: SheetGeometry,
  used: number,
  printer: Printer,
): readonly PlacedPage[] {
  const paper = PAPERS[sheet.paper];
  const places = sheet.columns * sheet.rows;
  const pages: { x: number; y: number; label: PlacedLabel }[][] = [];
  labels.forEach((label, index) => {
    const place = used + index;
    const at = place % places;
    const x = sheet.leftMm + (at % sheet.columns) * sheet.pitchXMm + sheet.labelWidthMm / 2;
    const y = sheet.topMm + Math.floor(at / sheet.columns) * sheet.pitchYMm + sheet.labelHeightMm / 2;
    const page = Math.floor(place / places);
    pages[page] ??= [];
    pages[page].push({
      x: dots(x, printer) - Math.floor(label.width / 2),
      y: dots(y, printer) - Math.floor(label.height / 2),
      label,
    });
  });
  return pages.map((placed) => ({
    width: dots(paper.widthMm, printer),
    height: dots(paper.heightMm, printer),
    labels: placed,
    marks: [],
  }));
}
