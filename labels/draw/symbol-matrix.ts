import bwipjs from "bwip-js/node";
import type { TagNumber } from "../../server/domain/tags/tag-number.ts";
import { SYMBOL_MODULES } from "../layout/placed-box.ts";

/** Modules row by row from the top; true is dark. */
export interface ModuleGrid {
  readonly size: number;
  readonly dark: readonly boolean[];
}

/**
 * Encodes a tag number as Data Matrix ECC 200 (ISO/IEC 16022), forced to 16 × 16 modules: twelve symbols take nine
 * codewords, so 14 × 14 is too small and a larger square would only make the modules smaller.
 */
export function symbolOfNumber(number: TagNumber): ModuleGrid {
  return encodeDataMatrix(number, SYMBOL_MODULES);
}

/** Encodes text as a square Data Matrix of the given side. Throws when the text does not fit or the side is none. */
export function encodeDataMatrix(text: string, side: number): ModuleGrid {
  const [symbol] = bwipjs.raw("datamatrix", text, `version=${side}x${side}`);
  if (symbol === undefined || !("pixs" in symbol) || symbol.pixx !== side || symbol.pixy !== side)
    throw new Error(`the encoder gave no Data Matrix of ${side} × ${side} modules`);
  return { size: side, dark: symbol.pixs.map((pixel) => pixel === 1) };
}
