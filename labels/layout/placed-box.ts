import type { TagNumber } from "../../server/domain/tags/tag-number.ts";

export type Ink = "black" | "white";
/** Type faces by use: numbers are mono 700 with a marked zero, lines 600, headings 700, body 400. */
export type Face = "number" | "line" | "heading" | "body";

/**
 * One thing to draw. All lengths are printer dots from the top left corner, y downwards; those of symbols and
 * bars are whole. A symbol is a Data Matrix of 16 × 16 modules that carries the number alone.
 */
export type PlacedBox =
  | {
      readonly box: "symbol";
      readonly number: TagNumber;
      readonly x: number;
      readonly y: number;
      readonly module: number;
    }
  | {
      readonly box: "text";
      readonly text: string;
      readonly face: Face;
      readonly size: number;
      readonly x: number;
      readonly baseline: number;
      readonly ink: Ink;
      /** Added after each character. */
      readonly spacing: number;
    }
  | {
      readonly box: "bar";
      readonly x: number;
      readonly y: number;
      readonly width: number;
      readonly height: number;
      readonly ink: Ink;
    }
  | {
      readonly box: "strokes";
      readonly lines: readonly Line[];
      readonly thick: number;
      readonly ink: Ink;
      /** Dots on, dots off; ends are then round. */
      readonly dash?: readonly [number, number];
      /** Nothing is drawn outside it. */
      readonly clip?: Rectangle;
    };
export type Line = readonly [x1: number, y1: number, x2: number, y2: number];
export interface Rectangle {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Modules a side of every symbol that is printed, and the clear zone around it, in modules. */
export const SYMBOL_MODULES = 16;
export const CLEAR_MODULES = 2;

/** What one label or card is made of, and how large it is, in dots. */
export interface PlacedLabel {
  readonly width: number;
  readonly height: number;
  readonly boxes: readonly PlacedBox[];
}

/** One page: labels at whole dots, and marks that belong to the page itself. Sizes are whole dots too. */
export interface PlacedPage {
  readonly width: number;
  readonly height: number;
  readonly labels: readonly { readonly x: number; readonly y: number; readonly label: PlacedLabel }[];
  readonly marks: readonly PlacedBox[];
}
