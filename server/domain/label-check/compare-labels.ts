import type { ModelTakes } from "../pieces/label.ts";
import type { AcceptableField } from "./accepted-combination.ts";
import { isSameName, written } from "./fold-words.ts";
import type { InnerPiece, LabelField, LabelReason, OuterPiece, Side } from "./label-verdict.ts";
import { compareTakes } from "./model-takes.ts";
import { compareSizes, isOneSize } from "./normalise-size.ts";

/** One row before readings, recorded words and eyes are weighed. `none` is shown only. */
export interface Comparison {
  readonly field: LabelField;
  readonly outer?: string;
  readonly inner?: string;
  readonly relation: "same" | "differs" | "unknown" | "none";
  readonly reasons: readonly LabelReason[];
  /** The differences of this row that a recorded word may accept; empty when none may. */
  readonly accepts: readonly AcceptableField[];
}

/**
 * Compares what two labels and kinds say, row by row, in the fixed order garment, maker, model or code, size,
 * pattern, made. Returns also the codes that the shell takes. Source: facts.md 2.2.
 */
export function compareLabels(
  outer: OuterPiece,
  inner: InnerPiece,
  table: readonly ModelTakes[],
): { readonly comparisons: readonly Comparison[]; readonly outerTakes: readonly string[] } {
  const takes = compareTakes(outer, inner, table);
  const model: Comparison = {
    field: "model-or-code",
    ...values(takes.takes.length === 0 ? undefined : takes.takes.join(" or "), takes.is),
    relation: takes.relation,
    reasons: takes.reason === undefined ? [] : [takes.reason],
    accepts: ["model-or-code"],
  };
  return {
    comparisons: [
      compareGarments(outer, inner),
      compareMakers(outer, inner),
      model,
      compareSizeRow(outer, inner),
      comparePatterns(outer, inner),
      {
        field: "made",
        ...values(outer.label.madeOn, inner.label.madeOn),
        relation: "none",
        reasons: [],
        accepts: [],
      },
    ],
    outerTakes: takes.codes,
  };
}

function compareGarments(outer: OuterPiece, inner: InnerPiece): Comparison {
  const isSameFamily = outer.family === inner.family;
  const named = ({ family, garment }: OuterPiece) => (isSameFamily ? garment : `${family} ${garment}`);
  const row = { field: "garment", ...values(named(outer), named(inner)) } as const;
  const reasons: LabelReason[] = [];
  if (outer.garment !== inner.garment) {
    reasons.push({ code: "garment-differs", outer: outer.garment, inner: inner.garment });
  }
  if (!isSameFamily) reasons.push({ code: "family-differs", outer: outer.family, inner: inner.family });
  const accepts = outer.garment === inner.garment && !isSameFamily ? (["family"] as const) : [];
  return { ...row, relation: reasons.length === 0 ? "same" : "differs", reasons, accepts };
}

function compareMakers(outer: OuterPiece, inner: InnerPiece): Comparison {
  const [one, other] = [written(outer.label.maker), written(inner.label.maker)];
  const row = { field: "maker", ...values(one, other), accepts: ["maker"] } as const;
  if (one === undefined || other === undefined) return { ...row, ...unknown("maker", one, other) };
  if (isSameName(one, other)) return { ...row, relation: "same", reasons: [] };
  return { ...row, relation: "differs", reasons: [{ code: "maker-differs", outer: one, inner: other }] };
}

function compareSizeRow(outer: OuterPiece, inner: InnerPiece): Comparison {
  const [one, other] = [written(outer.label.size), written(inner.label.size)];
  const row = { field: "size", ...values(one, other), accepts: ["size"] } as const;
  // A DRD is often made in one size, so its model or code and its maker decide.
  if (inner.layer === "drd" && (other === undefined || isOneSize(other)))
    return { ...row, relation: "none", reasons: [], accepts: [] };
  if (one === undefined || other === undefined) return { ...row, ...unknown("size", one, other) };
  const compared = compareSizes(one, other);
  if (compared.relation === "same") return { ...row, relation: "same", reasons: [] };
  if (compared.relation === "unclear") {
    return {
      ...row,
      relation: "unknown",
      reasons: [{ code: "size-unclear", outer: one, inner: other, why: compared.why }],
    };
  }
  // A DRD in S, M, L beside a coat in chest and length is measured on another scale: neither agreed nor different.
  if (inner.layer === "drd" && /\d/.test(one) !== /\d/.test(other)) {
    return {
      ...row,
      relation: "unknown",
      reasons: [{ code: "size-another-scale", outer: one, inner: other }],
    };
  }
  return { ...row, relation: "differs", reasons: [{ code: "size-differs", outer: one, inner: other }] };
}

/** Patterns are compared where a label names one. Where neither does, or a DRD does not, the row is shown only. */
function comparePatterns(outer: OuterPiece, inner: InnerPiece): Comparison {
  const [one, other] = [written(outer.label.pattern), written(inner.label.pattern)];
  const row = { field: "pattern", ...values(one, other), accepts: ["pattern"] } as const;
  if (other === undefined && (one === undefined || inner.layer === "drd"))
    return { ...row, relation: "none", reasons: [], accepts: [] };
  if (one === undefined || other === undefined) return { ...row, ...unknown("pattern", one, other) };
  if (isSameName(one, other)) return { ...row, relation: "same", reasons: [] };
  return { ...row, relation: "differs", reasons: [{ code: "pattern-differs", outer: one, inner: other }] };
}

function unknown(
  field: "maker" | "size" | "pattern",
  outer: string | undefined,
  inner: string | undefined,
): { readonly relation: "unknown"; readonly reasons: readonly LabelReason[] } {
  const side: Side = outer === undefined ? (inner === undefined ? "both" : "outer") : "inner";
  return { relation: "unknown", reasons: [{ code: "field-unknown", field, side }] };
}

function values(outer: string | undefined, inner: string | undefined): { outer?: string; inner?: string } {
  return { ...(outer === undefined ? {} : { outer }), ...(inner === undefined ? {} : { inner }) };
}
