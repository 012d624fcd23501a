import { formatTagNumber, type TagNumber } from "../../server/domain/tags/tag-number.ts";
import type { TextFault } from "./fit-text.ts";
import { type MediaFault, PAPERS } from "./media.ts";
import { TAG_MM } from "./tag-label.ts";

/** Why a print run was not made. A run is drawn whole or not at all, and every reason is told at once. */
export type PrintRefusal =
  | (TextFault & { readonly number: TagNumber; readonly on: "tag" | "card" })
  | MediaFault
  | { readonly code: "nothing-to-print" }
  | { readonly code: "number-twice"; readonly number: TagNumber };

export interface RefusalWords {
  readonly what: string;
  readonly why: string;
  readonly next: string;
}

/** Says what was not printed, why, and what to do. */
export function sayPrintRefusal(refusal: PrintRefusal): RefusalWords {
  switch (refusal.code) {
    case "text-does-not-fit":
      return {
        what: notPrinted(refusal),
        why: `“${refusal.text}” is ${tenths(Math.ceil(refusal.widthMm * 10))} mm wide and there is room for ${tenths(Math.floor(refusal.roomMm * 10))} mm.`,
        next:
          refusal.on === "tag"
            ? "Print without the model's name or the number alone, or shorten it in the register."
            : "Shorten the name.",
      };
    case "text-has-no-glyph":
      return {
        what: notPrinted(refusal),
        why: `No font here has the character “${refusal.character}” (${unicode(refusal.codePoint)}) in “${refusal.text}”.`,
        next: "Write it with other letters, or print the number alone.",
      };
    case "text-needs-shaping":
      return {
        what: notPrinted(refusal),
        why: `“${refusal.text}” is written from right to left or joins its letters, and prints do not do that yet.`,
        next: "Write it with other letters, or print the number alone.",
      };
    case "label-too-small":
      return {
        what: "Not printed.",
        why: `A label of ${refusal.sheet} is ${refusal.widthMm} × ${refusal.heightMm} mm and a tag needs ${TAG_MM.width} × ${TAG_MM.height} mm.`,
        next: "Choose another sheet.",
      };
    case "labels-leave-the-paper":
      return {
        what: "Not printed.",
        why: `The labels of ${refusal.sheet} reach beyond ${refusal.paper} paper, ${PAPERS[refusal.paper].widthMm} × ${PAPERS[refusal.paper].heightMm} mm.`,
        next: "Measure the sheet again and mend its figures.",
      };
    case "sheet-used-up":
      return {
        what: "Not printed.",
        why: `${refusal.used} places of ${refusal.sheet} are given as used, and it has ${refusal.places}.`,
        next: `Give a whole number from 0 to ${refusal.places - 1}.`,
      };
    case "nothing-to-print":
      return { what: "Not printed.", why: "No tag or card is chosen.", next: "Choose at least one." };
    case "number-twice":
      return {
        what: `Not printed: ${formatTagNumber(refusal.number)}.`,
        why: "The number is in this run twice, and two labels may not carry one number.",
        next: "Take one of them out.",
      };
  }
}

function notPrinted(refusal: { readonly number: TagNumber; readonly on: "tag" | "card" }): string {
  return `Not printed: ${refusal.on} ${formatTagNumber(refusal.number)}.`;
}

function tenths(count: number): string {
  return (count / 10).toFixed(1);
}

function unicode(codePoint: number): string {
  return `U+${codePoint.toString(16).toUpperCase().padStart(4, "0")}`;
}
