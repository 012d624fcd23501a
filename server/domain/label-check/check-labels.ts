import type { ModelTakes } from "../pieces/label.ts";
import { type AcceptedCombination, findAcceptance } from "./accepted-combination.ts";
import { type Comparison, compareLabels } from "./compare-labels.ts";
import {
  type ComparedByEye,
  type InnerPiece,
  type LabelCheck,
  type LabelReason,
  type LabelRow,
  type OuterPiece,
  type Side,
  worstVerdict,
} from "./label-verdict.ts";

/** What a label check looks at. Words and rows of other pieces or models may be given; they change nothing. */
export interface LabelCheckInput {
  readonly outer: OuterPiece;
  readonly inner: InnerPiece;
  readonly modelTable: readonly ModelTakes[];
  readonly acceptedCombinations: readonly AcceptedCombination[];
  readonly comparedByEye?: ComparedByEye;
}

/**
 * Compares the maker's labels of a shell and a layer and says every reason at once. Rows: garment kind and rule
 * family, maker, model or liner code, size, pattern, made (shown only). Cut numbers, serials and lots are never
 * compared. Garment and family come from the kinds, whatever was read. A known difference stops even while a
 * label is unread; agreement counts only once both labels were read. A difference becomes accepted by a recorded
 * word in its scope alone; labels compared by eye settle what was unread or untold, never a difference.
 * Source: facts.md 2.1 to 2.3 (S5, S6; the match test itself is common practice).
 */
export function checkLabels(input: LabelCheckInput): LabelCheck {
  const { outer, inner } = input;
  const { comparisons, outerTakes } = compareLabels(outer, inner, input.modelTable);
  const eye = eyeOn(input);
  const doubts = labelDoubts(outer, inner);
  const rows = comparisons.map((comparison) => {
    const word = comparison.accepts
      .map((field) => findAcceptance(field, { outer, inner, outerTakes }, input.acceptedCombinations))
      .find((found) => found !== undefined);
    return decideRow(comparison, comparison.field === "garment" ? [] : doubts, word, eye !== undefined);
  });
  const isByEye = rows.some(restsOnEye);
  return {
    verdict: worstVerdict(rows.map((row) => row.verdict)),
    rows,
    reasons: stoppingReasons(rows),
    acceptedBy: [...new Set(rows.flatMap((row) => row.acceptedBy ?? []))],
    ...(eye && isByEye ? { comparedByEye: eye } : {}),
    made: {
      ...(outer.label.madeOn === undefined ? {} : { outer: outer.label.madeOn }),
      ...(inner.label.madeOn === undefined ? {} : { inner: inner.label.madeOn }),
    },
  };
}

/** A row that passes though a label is in doubt rests on who compared them by eye; so does a word about unread labels. */
function restsOnEye({ verdict, reasons }: LabelRow): boolean {
  if (verdict === "match") return reasons.length > 0;
  return verdict === "accepted" && reasons.some(({ code }) => code === "label-not-read");
}

function decideRow(
  comparison: Comparison,
  doubts: readonly LabelDoubt[],
  word: AcceptedCombination | undefined,
  isByEye: boolean,
): LabelRow {
  const { field, outer, inner, relation } = comparison;
  const values = {
    field,
    ...(outer === undefined ? {} : { outer }),
    ...(inner === undefined ? {} : { inner }),
  };
  if (relation === "none") return { ...values, verdict: "shown", reasons: [] };
  if (relation === "same" && doubts.length === 0) return { ...values, verdict: "match", reasons: [] };
  const reasons = [...comparison.reasons.filter((reason) => !isImplied(reason, doubts)), ...doubts];
  if (relation === "differs" && !word) return { ...values, verdict: "differs", reasons };
  const isUnread = doubts.some(({ code }) => code === "label-not-read");
  // A recorded word says what may be worn together; that this label is the one meant, somebody must have read or seen.
  if (word && (!isUnread || (isByEye && relation === "differs"))) {
    return { ...values, verdict: "accepted", reasons, acceptedBy: word };
  }
  if (isByEye) return { ...values, verdict: "match", reasons };
  return { ...values, verdict: isUnread ? "not-read" : "cannot-tell", reasons };
}

type LabelDoubt = LabelReason & { readonly code: "label-not-read" | "label-not-legible" };

function labelDoubts(outer: OuterPiece, inner: InnerPiece): readonly LabelDoubt[] {
  const unread = sideOf(outer.labelReading === "not yet read", inner.labelReading === "not yet read");
  const illegible = sideOf(outer.labelReading === "not legible", inner.labelReading === "not legible");
  return [
    ...(unread ? [{ code: "label-not-read", side: unread } as const] : []),
    ...(illegible ? [{ code: "label-not-legible", side: illegible } as const] : []),
  ];
}

/** What an unread or illegible label does not say needs no second reason. */
function isImplied(reason: LabelReason, doubts: readonly LabelDoubt[]): boolean {
  const covers = (side: Side) => doubts.some((doubt) => doubt.side === "both" || doubt.side === side);
  if (reason.code === "field-unknown") {
    return reason.side === "both" ? covers("outer") && covers("inner") : covers(reason.side);
  }
  return reason.code === "nothing-ties" && reason.missing.startsWith("inner") && covers("inner");
}

function sideOf(outer: boolean, inner: boolean): Side | undefined {
  if (outer && inner) return "both";
  if (outer) return "outer";
  return inner ? "inner" : undefined;
}

/** A comparison by eye counts for exactly the two pieces that it names. */
function eyeOn({ outer, inner, comparedByEye }: LabelCheckInput): ComparedByEye | undefined {
  return comparedByEye?.outer === outer.pieceId && comparedByEye.inner === inner.pieceId
    ? comparedByEye
    : undefined;
}

/** All reasons of the rows that stop, each once: the two labels' doubts stand in many rows. */
function stoppingReasons(rows: readonly LabelRow[]): readonly LabelReason[] {
  const stopping = rows.filter(
    ({ verdict }) => verdict !== "match" && verdict !== "accepted" && verdict !== "shown",
  );
  return [...new Set(stopping.flatMap(({ reasons }) => reasons))];
}
