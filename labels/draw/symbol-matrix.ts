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
 * codewords, so 14 × 14 is too small and a larger square would only make the modules smaller. The codewords are
 * given ready-made: letting the encoder look for the shortest mix of modes took two thirds of a print run.
 */
export function symbolOfNumber(number: TagNumber): ModuleGrid {
  return encodeCodewords(c40Codewords(number), SYMBOL_MODULES);
}

/** Encodes text as a square Data Matrix in whatever modes the encoder finds shortest. */
export function encodeText(text: string, side: number): ModuleGrid {
  return gridOf(bwipjs.raw("datamatrix", text, `version=${side}x${side}`), side);
}

function encodeCodewords(codewords: readonly number[], side: number): ModuleGrid {
  const escaped = codewords.map((codeword) => `^${String(codeword).padStart(3, "0")}`).join("");
  return gridOf(bwipjs.raw("datamatrix", escaped, `version=${side}x${side} raw`), side);
}

const LATCH_TO_C40 = 230;
const UNLATCH = 254;

/**
 * Packs digits and capitals three by three into codewords of C40 mode. The count of symbols is a multiple of three.
 * Source: ISO/IEC 16022, C40: digits are 4 to 13, letters 14 to 39, a triple is 1600·a + 40·b + c + 1.
 */
export function c40Codewords(symbols: string): readonly number[] {
  const values = [...symbols].map((symbol) => {
    const code = symbol.charCodeAt(0);
    return code <= 57 ? code - 48 + 4 : code - 65 + 14;
  });
  const packed: number[] = [];
  for (let at = 0; at + 2 < values.length; at += 3) {
    const [a = 0, b = 0, c = 0] = values.slice(at, at + 3);
    const triple = 1600 * a + 40 * b + c + 1;
    packed.push(triple >> 8, triple & 255);
  }
  return [LATCH_TO_C40, ...packed, UNLATCH];
}

type RawSymbol = { readonly pixs: readonly number[]; readonly pixx: number; readonly pixy: number };

function gridOf(symbols: readonly (RawSymbol | object)[], side: number): ModuleGrid {
  const [symbol] = symbols;
  if (symbol === undefined || !("pixs" in symbol) || symbol.pixx !== side || symbol.pixy !== side)
    throw new Error(`the encoder gave no Data Matrix of ${side} × ${side} modules`);
  return { size: side, dark: symbol.pixs.map((pixel) => pixel === 1) };
}
