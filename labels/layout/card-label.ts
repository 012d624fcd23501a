import { tagNumberGroups } from "../../server/domain/tags/tag-number.ts";
import type { CardFace } from "./card-face.ts";
import { faultOfText, type MeasureText, type TextFault } from "./fit-text.ts";
import type { Ink, PlacedBox, PlacedLabel } from "./placed-box.ts";
import { dots, moduleDots, type Printer } from "./printer.ts";

/** A card: 105 × 74 mm, the size A7. */
export const CARD_MM = { width: 105, height: 74 };

const MARGIN_MM = 6;
const BAND = { heightMm: 25, middleMm: 12.4, ruleMm: 0.5 };
/** Type sizes tried for the heading in one line; the last is also that of two lines. Same steps as the tape. */
const HEADING_SIZES_MM = [12, 9.8, 8];
const HEADING_PITCH_MM = 9;
const CAPITALS = 0.668;
const STITCH = { onMm: 2.9, offMm: 1.86, thickMm: 0.66, topRowMm: 1.9, bottomRowMm: 22.9 };
const LINES = { sizeMm: 4.76, firstBaselineMm: 35.5, pitchMm: 7.3 };
const SYMBOL = { xMm: 73, yMm: 33, moduleMm: 26 / 16 };
const NUMBER = { sizeMm: 4.23, baselineMm: 67.7, groupMm: 0.392 * 4.23 };

interface Heading {
  readonly sizeMm: number;
  readonly rows: readonly string[];
}

/**
 * Lays one card out in dots: band with its heading and stitches, three lines, code of 26 mm, number. The heading
 * steps down 12, 9.8, 8 mm and then takes two lines. Returns the faults instead when a text does not fit even so.
 */
export function layoutCard(
  face: CardFace,
  printer: Printer,
  measure: MeasureText,
): PlacedLabel | { readonly faults: readonly TextFault[] } {
  const roomMm = SYMBOL.xMm - MARGIN_MM - 2 * SYMBOL.moduleMm;
  const faults = face.lines.flatMap((line) => faultOfText(line, "body", LINES.sizeMm, roomMm, measure) ?? []);
  const heading = fitHeading(face.heading, measure);
  if ("code" in heading) return { faults: [heading, ...faults] };
  if (faults.length > 0) return { faults };
  const bandInk: Ink = face.writes ? "white" : "black";
  return {
    width: dots(CARD_MM.width, printer),
    height: dots(CARD_MM.height, printer),
    boxes: [
      band(face.writes, printer),
      ...stitches(face.writes, bandInk, printer),
      ...placeHeading(heading, bandInk, printer),
      ...face.lines.map(
        (text, row): PlacedBox => ({
          box: "text",
          text,
          face: "body",
          size: LINES.sizeMm * printer.dotsPerMm,
          x: dots(MARGIN_MM, printer),
          baseline: dots(LINES.firstBaselineMm + row * LINES.pitchMm, printer),
          ink: "black",
          spacing: 0,
        }),
      ),
      {
        box: "symbol",
        number: face.number,
        x: dots(SYMBOL.xMm, printer),
        y: dots(SYMBOL.yMm, printer),
        module: moduleDots(SYMBOL.moduleMm, printer),
      },
      ...placeNumber(face, printer, measure),
    ],
  };
}

function fitHeading(text: string, measure: MeasureText): Heading | TextFault {
  const roomMm = CARD_MM.width - 2 * MARGIN_MM;
  const fault = (part: string, sizeMm: number) => faultOfText(part, "heading", sizeMm, roomMm, measure);
  for (const sizeMm of HEADING_SIZES_MM)
    if (fault(text, sizeMm) === undefined) return { sizeMm, rows: [text] };
  const sizeMm = HEADING_SIZES_MM.at(-1) ?? 0;
  const words = text.split(" ");
  for (let count = words.length - 1; count > 0; count -= 1) {
    const rows = [words.slice(0, count).join(" "), words.slice(count).join(" ")];
    if (rows.every((row) => fault(row, sizeMm) === undefined)) return { sizeMm, rows };
  }
  return fault(text, sizeMm) ?? { sizeMm, rows: [text] };
}

function placeHeading({ sizeMm, rows }: Heading, ink: Ink, printer: Printer): readonly PlacedBox[] {
  const firstMm = BAND.middleMm + (CAPITALS * sizeMm) / 2 - ((rows.length - 1) * HEADING_PITCH_MM) / 2;
  return rows.map((text, row) => ({
    box: "text",
    text,
    face: "heading",
    size: sizeMm * printer.dotsPerMm,
    x: dots(MARGIN_MM, printer),
    baseline: dots(firstMm + row * HEADING_PITCH_MM, printer),
    ink,
    spacing: 0,
  }));
}

/** Filled over its whole height for a card that writes; otherwise the rule at its lower edge alone. */
function band(writes: boolean, printer: Printer): PlacedBox {
  const bottom = dots(BAND.heightMm, printer);
  const height = writes ? bottom : dots(BAND.ruleMm, printer);
  return { box: "bar", x: 0, y: bottom - height, width: dots(CARD_MM.width, printer), height, ink: "black" };
}

function stitches(writes: boolean, ink: Ink, printer: Printer): readonly PlacedBox[] {
  const rows = writes ? [STITCH.topRowMm, STITCH.bottomRowMm] : [STITCH.bottomRowMm];
  const at = (mm: number) => mm * printer.dotsPerMm;
  return rows.map((yMm) => ({
    box: "strokes",
    lines: [[at(1.2), at(yMm), at(CARD_MM.width - 1.2), at(yMm)]],
    thick: at(STITCH.thickMm),
    ink,
    dash: [at(STITCH.onMm - STITCH.thickMm), at(STITCH.offMm + STITCH.thickMm)],
  }));
}

/** Three groups set closer than a mono blank, as on screen. */
function placeNumber(face: CardFace, printer: Printer, measure: MeasureText): readonly PlacedBox[] {
  const group = measure("0000", "number");
  const stepMm = "code" in group ? 0 : group.width * NUMBER.sizeMm + NUMBER.groupMm;
  return tagNumberGroups(face.number).map((text, index) => ({
    box: "text",
    text,
    face: "number",
    size: NUMBER.sizeMm * printer.dotsPerMm,
    x: dots(MARGIN_MM + index * stepMm, printer),
    baseline: dots(NUMBER.baselineMm, printer),
    ink: "black",
    spacing: 0,
  }));
}
