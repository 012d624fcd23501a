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

const split = new Map<string, { readonly runs: readonly TextRun[] } | TextFault>();
/** Keeps the memory of a long-lived process small; a run of tags has far fewer different lines. */
const MOST_REMEMBERED = 20_000;

/**
 * Splits a text by the fonts that draw it. Returns a fault, never a box or a blank, when no font of the face has a
 * glyph or when the script needs shaping that a print does not do.
 */
export function splitRuns(text: string, face: Face): { readonly runs: readonly TextRun[] } | TextFault {
  const key = `${face}\n${text}`;
  const known = split.get(key);
  if (known) return known;
  const found = findRuns(text, face);
  if (split.size >= MOST_REMEMBERED) split.clear();
  split.set(key, found);
  return found;
}

/** Measures by the fonts that will be embedded. */
export const measureText: MeasureText = (text, face) => {
  const found = splitRuns(text, face);
  return "code" in found ? found : { width: found.runs.reduce((sum, run) => sum + run.width, 0) };
};

function findRuns(text: string, face: Face): { readonly runs: readonly TextRun[] } | TextFault {
  const shaped = NEEDS_SHAPING.exec(text)?.[0];
  if (shaped !== undefined) return { code: "text-needs-shaping", text, character: shaped };
  const runs: { font: number; text: string }[] = [];
  for (const character of text) {
    const codePoint = character.codePointAt(0) ?? 0;
    const font = fontWithGlyph(codePoint, face);
    if (font === undefined) return { code: "text-has-no-glyph", text, character, codePoint };
    const last = runs.at(-1);
    if (last?.font === font) last.text += character;
    else runs.push({ font, text: character });
  }
  return { runs: runs.map((run) => ({ ...run, width: advance(run.text, face, run.font) })) };
}

function fontWithGlyph(codePoint: number, face: Face): number | undefined {
  for (let index = 0; index < chainLength(face); index += 1)
    if (fontOfFace(face, index).metrics.hasGlyphForCodePoint(codePoint)) return index;
  return undefined;
}

/** Sums the advances of the glyphs as they are embedded: kerning is not drawn, so it is not measured. */
function advance(text: string, face: Face, index: number): number {
  const { metrics } = fontOfFace(face, index);
  return metrics.layout(text).glyphs.reduce((sum, glyph) => sum + glyph.advanceWidth, 0) / metrics.unitsPerEm;
}
