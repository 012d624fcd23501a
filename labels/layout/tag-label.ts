import { tagNumberGroups } from "../../server/domain/tags/tag-number.ts";
import { faultOfText, type MeasureText, type TextFault, tidyText } from "./fit-text.ts";
import { drawLayerEdge } from "./layer-edge.ts";
import type { Face, PlacedBox, PlacedLabel } from "./placed-box.ts";
import { dots, moduleDots, type Printer } from "./printer.ts";
import type { TagContent } from "./tag-content.ts";

/** The tag: 50 × 25 mm. */
export const TAG_MM = { width: 50, height: 25 };

const SYMBOL = { xMm: 3, yMm: 4.5, moduleMm: 1 };
const TEXT_X_MM = 21.75;
/** Number in three lines; capitals of 6.25 mm type are 4.2 mm high. */
const NUMBER = { sizeMm: 6.25, firstBaselineMm: 6.25, pitchMm: 5.5, spacingMm: 0.25 };
const LINE_SIZE_MM = 20.5 / 8;
const KIND_BASELINE_MM = 20.75;
const SIZE_BASELINE_MM = 23.5;
const EDGE = { xMm: 45.25, yMm: 1.75, widthMm: 3.25, heightMm: 21.5 };
const GAP_BEFORE_EDGE_MM = 0.75;
const MARGIN_MM = 1.5;

/**
 * Lays one tag out in dots: symbol left, number in three lines, kind and size below it, layer edge right. Returns
 * the faults of its lines instead when one does not fit or has no glyph; nothing is cut short or shrunk.
 */
export function layoutTag(
  content: TagContent,
  printer: Printer,
  measure: MeasureText,
): PlacedLabel | { readonly faults: readonly TextFault[] } {
  const lines = [
    { text: content.kindLine, baselineMm: KIND_BASELINE_MM },
    { text: content.sizeLine, baselineMm: SIZE_BASELINE_MM },
  ].flatMap(({ text, baselineMm }) => (text ? [{ text: tidyText(text), baselineMm }] : []));
  const roomMm = lineRoomMm(content);
  const faults = lines.flatMap(({ text }) => faultOfText(text, "line", LINE_SIZE_MM, roomMm, measure) ?? []);
  if (faults.length > 0) return { faults };
  const say = (
    text: string,
    face: Face,
    sizeMm: number,
    baselineMm: number,
    spacingMm: number,
  ): PlacedBox => ({
    box: "text",
    text,
    face,
    size: sizeMm * printer.dotsPerMm,
    x: dots(TEXT_X_MM, printer),
    baseline: dots(baselineMm, printer),
    ink: "black",
    spacing: spacingMm * printer.dotsPerMm,
  });
  return {
    width: dots(TAG_MM.width, printer),
    height: dots(TAG_MM.height, printer),
    boxes: [
      {
        box: "symbol",
        number: content.number,
        x: dots(SYMBOL.xMm, printer),
        y: dots(SYMBOL.yMm, printer),
        module: moduleDots(SYMBOL.moduleMm, printer),
      },
      ...tagNumberGroups(content.number).map((group, row) =>
        say(group, "number", NUMBER.sizeMm, NUMBER.firstBaselineMm + row * NUMBER.pitchMm, NUMBER.spacingMm),
      ),
      ...lines.map(({ text, baselineMm }) => say(text, "line", LINE_SIZE_MM, baselineMm, 0)),
      ...drawLayerEdge(content.edge, edgeArea(printer), printer),
    ],
  };
}

function lineRoomMm(content: TagContent): number {
  const rightMm = content.edge === "none" ? TAG_MM.width - MARGIN_MM : EDGE.xMm - GAP_BEFORE_EDGE_MM;
  return rightMm - TEXT_X_MM;
}

function edgeArea(printer: Printer) {
  return {
    x: dots(EDGE.xMm, printer),
    y: dots(EDGE.yMm, printer),
    width: dots(EDGE.widthMm, printer),
    height: dots(EDGE.heightMm, printer),
  };
}
