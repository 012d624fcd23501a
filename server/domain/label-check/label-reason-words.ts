import type { LabelReason, MissingTie, Side } from "./label-verdict.ts";

/**
 * Says one reason of a label check in a short sentence, shell first, then layer: "Size: 46 32 R, 44 32 R."
 * `inner` is the layer's word on screen, such as "liner" or "DRD".
 */
export function sayLabelReason(reason: LabelReason, inner = "liner"): string {
  switch (reason.code) {
    case "garment-differs":
      return `Garment: ${reason.outer}, ${reason.inner}.`;
    case "family-differs":
      return `Rule family: ${reason.outer}, ${reason.inner}.`;
    case "maker-differs":
      return `Maker: ${reason.outer}, ${reason.inner}.`;
    case "takes-another":
      return `Model or ${inner} code: takes ${reason.takes.join(" or ")}, is ${reason.is}.`;
    case "code-unclear":
      return `Model or ${inner} code: takes ${reason.takes}, reads ${reason.is}; whether they are one is unclear.`;
    case "nothing-ties":
      return nothingTies(reason.missing, inner);
    case "size-differs":
      return `Size: ${reason.outer}, ${reason.inner}.`;
    case "size-unclear":
      return `Size: ${reason.outer}, ${reason.inner}; the two are ${reason.why === "parted differently" ? "parted differently" : "perhaps an abbreviation of each other"}.`;
    case "size-another-scale":
      return `Size: ${reason.outer}, ${reason.inner}; the two are on different scales.`;
    case "pattern-differs":
      return `Pattern: ${reason.outer}, ${reason.inner}.`;
    case "field-unknown":
      return `The ${reason.field} on ${whose(reason.side, inner)} is not recorded.`;
    case "label-not-read":
      return `${capital(whose(reason.side, inner))} ${reason.side === "both" ? "are" : "is"} not yet read.`;
    case "label-not-legible":
      return `${capital(whose(reason.side, inner))} ${reason.side === "both" ? "are" : "is"} not legible.`;
  }
}

function nothingTies(missing: MissingTie, inner: string): string {
  switch (missing) {
    case "outer-model":
      return "The shell's model is not recorded, and its label names no code that it takes.";
    case "table-row":
      return `The model table does not say which ${inner} this shell takes.`;
    case "inner-model":
      return `The model of this ${inner} is not recorded.`;
    case "inner-code":
      return `The code of this ${inner} is not recorded.`;
    case "inner-model-and-code":
      return `Neither model nor code of this ${inner} is recorded.`;
  }
}

function whose(side: Side, inner: string): string {
  if (side === "both") return "both labels";
  return side === "outer" ? "the shell's label" : `the ${inner}'s label`;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
