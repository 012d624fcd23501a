/** Each reason of a label check as one sentence: "Size: 46 32 R, 44 32 R." Plain data in, text out. */
import { listOf, type Words } from "./words.ts";

type Side = "outer" | "inner" | "both";

/** What keeps two labels from matching, with its facts; the same shape in which the label rules tell it. */
export type LabelReasonFacts =
  | { readonly code: "garment-differs"; readonly outer: string; readonly inner: string }
  | { readonly code: "family-differs"; readonly outer: string; readonly inner: string }
  | { readonly code: "maker-differs"; readonly outer: string; readonly inner: string }
  | { readonly code: "pattern-differs"; readonly outer: string; readonly inner: string }
  | { readonly code: "size-differs"; readonly outer: string; readonly inner: string }
  | { readonly code: "size-unclear"; readonly outer: string; readonly inner: string; readonly why: string }
  | { readonly code: "size-another-scale"; readonly outer: string; readonly inner: string }
  | {
      readonly code: "takes-another";
      readonly takes: readonly string[];
      readonly is: string;
      readonly said: string;
    }
  | { readonly code: "code-unclear"; readonly takes: string; readonly is: string; readonly said: string }
  | { readonly code: "nothing-ties"; readonly missing: string }
  | { readonly code: "field-unknown"; readonly field: "maker" | "size" | "pattern"; readonly side: Side }
  | { readonly code: "label-not-read"; readonly side: Side }
  | { readonly code: "label-not-legible"; readonly side: Side };

/** Says one reason. */
export function sayLabelReason(reason: LabelReasonFacts, words: Words): string {
  switch (reason.code) {
    case "garment-differs":
      return `${words.garment}: shell for ${reason.outer}, layer for ${reason.inner}.`;
    case "family-differs":
      return `Kind of gear: shell ${reason.outer}, layer ${reason.inner}.`;
    case "maker-differs":
      return `${words.maker}: shell ${reason.outer}, layer ${reason.inner}.`;
    case "pattern-differs":
      return `${words.pattern}: shell ${reason.outer}, layer ${reason.inner}.`;
    case "size-differs":
      return `${words.size}: shell ${reason.outer}, layer ${reason.inner}.`;
    case "size-unclear":
      return `${words.size}: shell ${reason.outer}, layer ${reason.inner}; ${reason.why}.`;
    case "size-another-scale":
      return `${words.size}: shell ${reason.outer}, layer ${reason.inner}; on two different scales.`;
    case "takes-another":
      return `${words.linerCode}: takes ${listOf(reason.takes, "or")}, is ${reason.is} (${source(reason.said)}).`;
    case "code-unclear":
      return `${words.linerCode}: takes ${reason.takes}, is ${reason.is}; perhaps the same, written in two ways.`;
    case "nothing-ties":
      return `Nothing on record ties the layer to the shell: ${missing(reason.missing)}.`;
    case "field-unknown":
      return `The ${reason.field} ${onLabel(reason.side)} is not recorded.`;
    case "label-not-read":
      return `${label(reason.side)} not been read yet.`;
    default:
      return `${label(reason.side)} been found not legible.`;
  }
}

/** Says what to do about the first thing that is open: a label to read, a word to record, another layer to scan. */
export function nextForReasons(reasons: readonly LabelReasonFacts[]): string {
  const codes = new Set(reasons.map((reason) => reason.code));
  if (codes.has("label-not-read")) return "read the label and type it in.";
  if (codes.has("field-unknown")) return "read the label and type it in, or record the maker’s word.";
  if (codes.has("nothing-ties")) return "fill in the model table, or record the maker’s word.";
  if (codes.has("size-unclear") || codes.has("code-unclear") || codes.has("label-not-legible")) {
    return "have an inspector compare the labels by eye, or record the maker’s word.";
  }
  return "take it out and scan another.";
}

function onLabel(side: Side): string {
  if (side === "both") return "on both labels";
  return side === "outer" ? "on the shell’s label" : "on the layer’s label";
}

function label(side: Side): string {
  if (side === "both") return "Both labels have";
  return side === "outer" ? "The shell’s label has" : "The layer’s label has";
}

function source(said: string): string {
  return said === "model-table" ? "by the model table" : "by the shell’s label";
}

function missing(what: string): string {
  switch (what) {
    case "outer-model":
      return "the shell’s model is not recorded";
    case "table-row":
      return "the model table has no row for this shell";
    case "inner-model":
      return "the layer’s model is not recorded";
    case "inner-code":
      return "the layer’s liner code is not recorded";
    default:
      return "neither model nor liner code of the layer is recorded";
  }
}
