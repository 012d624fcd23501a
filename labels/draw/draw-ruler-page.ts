import type { SheetGeometry } from "../layout/media.ts";
import type { Printer } from "../layout/printer.ts";
import { layoutRulerPage } from "../layout/ruler-page.ts";
import { writePdf } from "./pdf-file.ts";

/** Draws the page with rulers and label edges that is printed and measured before a run on sheets. */
export function drawRulerPagePdf(sheet: SheetGeometry, printer: Printer): Promise<Uint8Array> {
  return writePdf([layoutRulerPage(sheet, printer)], printer, "Layertrail ruler page");
}
