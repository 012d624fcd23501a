import type { MeasureText, TextFault } from "../layout/fit-text.ts";
import type { Face } from "../layout/placed-box.ts";
import { chainLength, fontOfFace } from "./font-files.ts";

/** A stretch of text that one font draws; `width` is its advance at type size 1. */
export interface TextRun {
  readonly font: number;
  readonly text: string;
  readonly width: number;
}

/** Scripts that are written from right to left or join their letters, and marks that need placing on a letter. */
const NEEDS_SHAPING =
  /[\p{Mark}\p{Script=Hebrew}\p{Script=Arabic}\p{Script=Syriac}\p{Script=Thaana}\p{Script=Nko}\p{Script=Mongolian}]/u;

/**
 * Splits a text by the fonts that draw it. Returns a fault, never a box or a blank, when no font of the face has a
 * glyph or when the script needs shaping that a print does not do.
 */
export function splitRuns(text: string, face: Face): { readonly runs: readonly TextRun[] } | TextFault {
  const shaped = NEEDS_SHAPING.exec(text)?.[0];
  if (shaped !== undefined) return { code: "text-needs-shaping", text, character: shaped };
  const runs: { font: number; text: string; width: number }[] = [];
  for (const character of text) {
    const glyph = glyphOf(character, face);
    if (glyph === undefined)
      return { code: "text-has-no-glyph", text, character, codePoint: character.codePointAt(0) ?? 0 };
    const last = runs.at(-1);
    if (last?.font === glyph.font) {
      last.text += character;
      last.width += glyph.width;
    } else runs.push({ font: glyph.font, text: character, width: glyph.width });
  }
  return { runs };
}

/** Measures by the fonts that will be embedded. */
export const measureText: MeasureText = (text, face) => {
  const found = splitRuns(text, face);
  return "code" in found ? found : { width: found.runs.reduce((sum, run) => sum + run.width, 0) };
};

const glyphs = new Map<string, { readonly font: number; readonly width: number } | undefined>();

/** Finds the first font with a glyph, and its advance at size 1. No kerning is drawn, so none is measured. */
function glyphOf(
  character: string,
  face: Face,
): { readonly font: number; readonly width: number } | undefined {
  const key = face + character;
  if (glyphs.has(key)) return glyphs.get(key);
  const found = findGlyph(character.codePointAt(0) ?? 0, face);
  glyphs.set(key, found);
  return found;
}

function findGlyph(codePoint: number, face: Face) {
  for (let font = 0; font < chainLength(face); font += 1) {
    const { metrics } = fontOfFace(face, font);
    if (metrics.hasGlyphForCodePoint(codePoint))
      return { font, width: metrics.glyphForCodePoint(codePoint).advanceWidth / metrics.unitsPerEm };
  }
  return undefined;
}
