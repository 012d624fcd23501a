import type { Face } from "./placed-box.ts";

/** Why a text cannot be printed as it stands. Lengths in millimetres. */
export type TextFault =
  | {
      readonly code: "text-does-not-fit";
      readonly text: string;
      readonly widthMm: number;
      readonly roomMm: number;
    }
  | {
      readonly code: "text-has-no-glyph";
      readonly text: string;
      readonly character: string;
      readonly codePoint: number;
    }
  | { readonly code: "text-needs-shaping"; readonly text: string; readonly character: string };

/** The width of a text at type size 1 by the metrics of the fonts that will be embedded, or why there is none. */
export type MeasureText = (text: string, face: Face) => { readonly width: number } | TextFault;

/** Composes accents, and makes every run of blanks one space, so that what is measured is what is drawn. */
export function tidyText(text: string): string {
  return text.normalize("NFC").replace(/\s+/g, " ").trim();
}

/** Checks that a text of a size in millimetres fits the room. Returns the fault, or undefined when it fits. */
export function faultOfText(
  text: string,
  face: Face,
  sizeMm: number,
  roomMm: number,
  measure: MeasureText,
): TextFault | undefined {
  const measured = measure(text, face);
  if ("code" in measured) return measured;
  const widthMm = measured.width * sizeMm;
  return widthMm > roomMm ? { code: "text-does-not-fit", text, widthMm, roomMm } : undefined;
}
