import type { ModelTakes } from "../pieces/label.ts";
import { compareCodes, written } from "./fold-words.ts";
import type { InnerPiece, LabelReason, MissingTie, OuterPiece } from "./label-verdict.ts";

/** What the row model or code compares: the shell's side, the layer's side, and how they relate. */
export interface TakesComparison {
  readonly relation: "same" | "differs" | "unknown";
  /** What the shell takes, as codes and model names, for showing. */
  readonly takes: readonly string[];
  readonly is?: string;
  /** Codes that the shell takes, by the table or by its own label. */
  readonly codes: readonly string[];
  readonly reason?: LabelReason;
}

type RowAnswer = "fits" | "another" | "unclear" | "unknown";

/**
 * Decides whether a shell takes a layer, by the model table for the shell's model, else by the liner code that the
 * shell's own label names. A table row fits when one thing that it names agrees and none differs. When the table
 * lets a liner in, a code on the shell's label that the table does not list still differs: label and table
 * then disagree, and nobody here may choose. A shell's label never speaks for a winter liner or a DRD.
 * Source: facts.md 2.2 (sample label with MODEL and LINER fields, S6).
 */
export function compareTakes(
  outer: OuterPiece,
  inner: InnerPiece,
  table: readonly ModelTakes[],
): TakesComparison {
  const rows = table.filter((row) => row.shellModel === outer.modelId && row.layerKind === inner.kind);
  const labelCode = speaksOnLabel(inner) ? written(outer.label.linerCode) : undefined;
  const tableCodes = rows.flatMap((row) => written(row.takesLinerCode) ?? []);
  const is = written(inner.label.linerCode) ?? written(inner.label.modelName);
  const facts = {
    takes: unique([...rows.flatMap(namesOf), ...(labelCode === undefined ? [] : [labelCode])]),
    codes: unique([...tableCodes, ...(labelCode === undefined ? [] : [labelCode])]),
    ...(is === undefined ? {} : { is }),
  };
  const byTable = rows.length > 0 ? judgeByTable(inner, rows) : undefined;
  const byLabel = labelCode === undefined ? undefined : judgeByLabel(inner, labelCode);
  if (byTable?.relation === "differs") return { ...facts, ...byTable };
  if (byLabel?.relation === "differs" && !isListed(labelCode, tableCodes, byTable))
    return { ...facts, ...byLabel };
  if (byTable) return { ...facts, ...byTable };
  if (byLabel) return { ...facts, ...byLabel };
  return {
    ...facts,
    relation: "unknown",
    reason: { code: "nothing-ties", missing: missingTie(outer, inner) },
  };
}

type Judged = Pick<TakesComparison, "relation" | "reason">;

function judgeByTable(inner: InnerPiece, rows: readonly ModelTakes[]): Judged {
  const answers = rows.map((row) => ({ row, answer: answerOf(row, inner) }));
  if (answers.some(({ answer }) => answer === "fits")) return { relation: "same" };
  const unclear = answers.find(({ answer }) => answer === "unclear")?.row;
  const is = written(inner.label.linerCode);
  if (unclear && is !== undefined) {
    const takes = unclear.takesLinerCode ?? "";
    return { relation: "unknown", reason: { code: "code-unclear", takes, is, said: "model-table" } };
  }
  if (answers.some(({ answer }) => answer === "unknown")) {
    return { relation: "unknown", reason: { code: "nothing-ties", missing: missingOnInner(inner, rows) } };
  }
  const shown = is ?? written(inner.label.modelName) ?? "another model";
  const takes = unique(rows.flatMap(namesOf));
  return { relation: "differs", reason: { code: "takes-another", takes, is: shown, said: "model-table" } };
}

function answerOf(row: ModelTakes, inner: InnerPiece): RowAnswer {
  const code = written(inner.label.linerCode);
  const takesCode = written(row.takesLinerCode);
  const byModel =
    row.takesModel === undefined || inner.modelId === undefined
      ? "unknown"
      : row.takesModel === inner.modelId
        ? "same"
        : "differs";
  const byCode = takesCode === undefined || code === undefined ? "unknown" : compareCodes(takesCode, code);
  if (byModel === "differs" || byCode === "differs") return "another";
  if (byCode === "unclear") return "unclear";
  return byModel === "same" || byCode === "same" ? "fits" : "unknown";
}

function judgeByLabel(inner: InnerPiece, labelCode: string): Judged {
  const is = written(inner.label.linerCode);
  if (is === undefined)
    return { relation: "unknown", reason: { code: "nothing-ties", missing: "inner-code" } };
  const relation = compareCodes(labelCode, is);
  if (relation === "same") return { relation };
  if (relation === "differs") {
    return { relation, reason: { code: "takes-another", takes: [labelCode], is, said: "shell-label" } };
  }
  return { relation: "unknown", reason: { code: "code-unclear", takes: labelCode, is, said: "shell-label" } };
}

/** Whether the table lets this liner in and also lists the code on the shell's label: both are then the maker's word. */
function isListed(
  labelCode: string | undefined,
  codes: readonly string[],
  byTable: Judged | undefined,
): boolean {
  if (byTable?.relation !== "same" || labelCode === undefined) return false;
  return codes.some((code) => compareCodes(code, labelCode) === "same");
}

/** A shell's label names the code of its main liner only, whole or as its thermal and moisture layers. */
function speaksOnLabel(inner: InnerPiece): boolean {
  return inner.layer === "liner" || inner.layer === "thermal-layer" || inner.layer === "moisture-layer";
}

function missingTie(outer: OuterPiece, inner: InnerPiece): MissingTie {
  if (outer.modelId === undefined) return "outer-model";
  return inner.modelId === undefined && written(inner.label.linerCode) === undefined
    ? "inner-model-and-code"
    : "table-row";
}

function missingOnInner(inner: InnerPiece, rows: readonly ModelTakes[]): MissingTie {
  const wantsModel = rows.some((row) => row.takesModel !== undefined) && inner.modelId === undefined;
  const wantsCode =
    rows.some((row) => written(row.takesLinerCode) !== undefined) &&
    written(inner.label.linerCode) === undefined;
  if (wantsModel && wantsCode) return "inner-model-and-code";
  return wantsModel ? "inner-model" : "inner-code";
}

function namesOf(row: ModelTakes): readonly string[] {
  return [written(row.takesLinerCode), written(row.takesModelName)].filter((name) => name !== undefined);
}

function unique(names: readonly string[]): readonly string[] {
  return [...new Set(names)];
}
