import { PAPERS, type SheetGeometry } from "./media.ts";
import type { Line, PlacedBox, PlacedPage } from "./placed-box.ts";
import { dots, type Printer } from "./printer.ts";

const RULER_MM = 100;
const FROM_MM = 60;
const THICK_MM = 0.2;
const TEXT_MM = 3.5;

/**
 * Lays out the page to print before a run on sheets: the edge of every label, one ruler of 100 mm across and one
 * down, and a square of 8 × 8 dots. Held behind a sheet of labels against the light it shows whether the figures fit.
 */
export function layoutRulerPage(sheet: SheetGeometry, printer: Printer): PlacedPage {
  const paper = PAPERS[sheet.paper];
  const at = (mm: number) => dots(mm, printer);
  const strokes = (lines: readonly Line[]): PlacedBox => ({
    box: "strokes",
    lines,
    thick: THICK_MM * printer.dotsPerMm,
    ink: "black",
  });
  const say = (text: string, xMm: number, baselineMm: number): PlacedBox => ({
    box: "text",
    text,
    face: "body",
    size: TEXT_MM * printer.dotsPerMm,
    x: at(xMm),
    baseline: at(baselineMm),
    ink: "black",
    spacing: 0,
  });
  const boxes: PlacedBox[] = [
    strokes(labelEdges(sheet, at)),
    strokes(ruler((along, across) => [at(FROM_MM + along), at(FROM_MM + across)])),
    strokes(ruler((along, across) => [at(FROM_MM + across), at(FROM_MM + along)])),
    say(`${sheet.name}: 100 mm from end to end, both ways`, FROM_MM + 6, FROM_MM + 12),
    say("Longer or shorter: print at actual size.", FROM_MM + 6, FROM_MM + 18),
    { box: "bar", x: at(FROM_MM + 6), y: at(FROM_MM + 22), width: 8, height: 8, ink: "black" },
    say("8 × 8 dots", FROM_MM + 9, FROM_MM + 23.5),
  ];
  const width = at(paper.widthMm);
  const height = at(paper.heightMm);
  return { width, height, labels: [{ x: 0, y: 0, label: { width, height, boxes } }], marks: [] };
}

function ruler(place: (alongMm: number, acrossMm: number) => readonly [number, number]): readonly Line[] {
  const line = (a: number, b: number, c: number, d: number): Line => [...place(a, b), ...place(c, d)];
  const ticks = Array.from({ length: RULER_MM / 5 + 1 }, (_, index) => {
    const along = index * 5;
    return line(along, 0, along, along % 10 === 0 ? 4 : 2);
  });
  return [line(0, 0, RULER_MM, 0), ...ticks];
}

function labelEdges(sheet: SheetGeometry, at: (mm: number) => number): readonly Line[] {
  const lines: Line[] = [];
  for (let row = 0; row < sheet.rows; row += 1)
    for (let column = 0; column < sheet.columns; column += 1) {
      const left = at(sheet.leftMm + column * sheet.pitchXMm);
      const right = at(sheet.leftMm + column * sheet.pitchXMm + sheet.labelWidthMm);
      const top = at(sheet.topMm + row * sheet.pitchYMm);
      const bottom = at(sheet.topMm + row * sheet.pitchYMm + sheet.labelHeightMm);
      lines.push([left, top, right, top], [right, top, right, bottom]);
      lines.push([right, bottom, left, bottom], [left, bottom, left, top]);
    }
  return lines;
}
