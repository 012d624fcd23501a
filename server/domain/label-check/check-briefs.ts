import type { CheckFacts, PieceBrief } from "../piece-view.ts";
import { checkLabels } from "./check-labels.ts";
import type { InnerPiece, LabelCheck, OuterPiece } from "./label-verdict.ts";

/**
 * Checks the labels of a shell and a layer as they are shown, by the facts that came with either of them. Undefined
 * where one of them is not what it should be, and for a coverall, whose labels nobody compares.
 */
export function checkBriefs(shell: PieceBrief, layer: PieceBrief, facts: CheckFacts): LabelCheck | undefined {
  const outer = asOuter(shell);
  const inner = asInner(layer);
  if (!outer || !inner) return undefined;
  const eye = facts.comparedByEye.findLast((seen) => seen.outer === shell.id && seen.inner === layer.id);
  return checkLabels({
    outer,
    inner,
    modelTable: facts.takes,
    acceptedCombinations: facts.acceptedCombinations,
    ...(eye ? { comparedByEye: eye } : {}),
  });
}

/** Puts the facts that came with two pieces together; one thing said twice counts once. */
export function joinFacts(one: CheckFacts, other: CheckFacts): CheckFacts {
  const known = new Set(one.acceptedCombinations.map(({ id }) => id));
  return {
    takes: [...one.takes, ...other.takes],
    acceptedCombinations: [
      ...one.acceptedCombinations,
      ...other.acceptedCombinations.filter(({ id }) => !known.has(id)),
    ],
    comparedByEye: [...one.comparedByEye, ...other.comparedByEye],
  };
}

/** Gives a shell as a label check takes it; undefined for a piece that is none, and for a coverall. */
export function asOuter(piece: PieceBrief): OuterPiece | undefined {
  const { garment, layer } = piece.kind;
  if (layer !== "shell" || !garment || garment === "coverall") return undefined;
  return { ...labelled(piece), garment };
}

/** Gives a layer as a label check takes it; undefined for a piece that is none. */
export function asInner(piece: PieceBrief): InnerPiece | undefined {
  const { garment, layer } = piece.kind;
  if (!layer || layer === "shell" || !garment || garment === "coverall") return undefined;
  return { ...labelled(piece), garment, layer };
}

function labelled({ id, kind, label, labelReading, model }: PieceBrief) {
  return {
    pieceId: id,
    kind: kind.code,
    family: kind.family,
    label,
    labelReading,
    ...(model ? { modelId: model } : {}),
  };
}
