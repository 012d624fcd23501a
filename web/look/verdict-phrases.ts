/** Label checks in words: the verdict, one sentence that says why, and the rows of the strip. Plain data in, text out. */
import type { SeamRow } from "./seam.tsx";
import type { VerdictName } from "./verdict-names.ts";
import { listOf, sentence, type Words } from "./words.ts";

export type LabelFieldName = "garment" | "maker" | "model-or-code" | "size" | "pattern" | "made";

/** One row of a check as the rules give it; `shown` is a row that is not compared. */
export type LabelRowFacts = {
  readonly field: LabelFieldName;
  readonly outer?: string | undefined;
  readonly inner?: string | undefined;
  readonly verdict: VerdictName | "shown";
  /** Only the code matters here: whether both labels are of one kind of value is told by it. */
  readonly reasons?: readonly { readonly code: string }[] | undefined;
};

/** Says a verdict as on screens: "labels match", "differs". */
export function verdictWord(verdict: VerdictName, words: Words): string {
  const said: Record<VerdictName, string> = {
    match: words.match,
    accepted: words.accepted,
    differs: words.differs,
    "cannot-tell": words.cannotTell,
    "not-read": words.notRead,
    none: words.notScanned,
  };
  return said[verdict];
}

/** Says a verdict as the head of a comparison: "Labels match", "Differs". */
export function verdictHead(verdict: VerdictName, words: Words): string {
  return sentence(verdictWord(verdict, words));
}

/** Names a field as the strip does. */
export function fieldLabel(field: LabelFieldName, words: Words): string {
  const said: Record<LabelFieldName, string> = {
    garment: words.garment,
    maker: words.maker,
    "model-or-code": words.linerCode,
    size: words.size,
    pattern: words.pattern,
    made: words.made,
  };
  return said[field];
}

/** Turns the rows of a check into rows of the strip, in the order in which they come; the garment only when it differs. */
export function seamRows(rows: readonly LabelRowFacts[], words: Words): readonly SeamRow[] {
  return rows
    .filter((row) => row.field !== "garment" || row.verdict === "differs")
    .map((row) => ({
      key: row.field,
      label: fieldLabel(row.field, words),
      note: row.verdict === "shown" ? words.notCompared : undefined,
      left: sideValue(row.field, row.outer, words.takes, words),
      right: sideValue(row.field, row.inner, words.is, words),
      verdict: row.verdict === "shown" ? "none" : row.verdict,
      says: row.verdict === "shown" ? words.notCompared : rowSays(row.verdict, words),
    }));
}

/** Says what the verdict means for the two pieces, a sentence each: "This liner does not belong in this shell." */
export function verdictSentences(
  verdict: VerdictName,
  layer: string,
  rows: readonly LabelRowFacts[],
  words: Words,
): readonly string[] {
  const named = (wanted: VerdictName) =>
    rows.filter((row) => row.verdict === wanted).map((row) => fieldLabel(row.field, words).toLowerCase());
  switch (verdict) {
    case "match":
      return [`This ${layer} belongs in this shell.`, "The labels say the same."];
    case "accepted":
      return [`The labels differ in ${listOf(named("accepted"))}.`, "A recorded word accepts it."];
    case "differs":
      return [`This ${layer} does not belong in this shell.`, ...fields(named("differs"), "not the same")];
    case "cannot-tell":
      return [
        `Whether this ${layer} belongs in this shell is open.`,
        ...fields(named("cannot-tell"), "not settled"),
      ];
    case "not-read":
      return ["The makers’ labels have not been read yet."];
    default:
      return [];
  }
}

function fields(names: readonly string[], said: string): readonly string[] {
  if (names.length === 0) return [];
  return [`${sentence(listOf(names))} ${names.length === 1 ? "is" : "are"} ${said}.`];
}

function rowSays(verdict: VerdictName, words: Words): string {
  return verdict === "match" ? words.theSame : verdictWord(verdict, words);
}

function sideValue(
  field: LabelFieldName,
  value: string | undefined,
  frame: (value: string) => string,
  words: Words,
): string {
  if (value === undefined || value === "") return words.unknown;
  return field === "model-or-code" ? frame(value) : value;
}
