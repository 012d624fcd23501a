import { asInner, asOuter, checkBriefs } from "../label-check/check-briefs.ts";
import type { LabelVerdict } from "../label-check/label-verdict.ts";
import type { CheckFacts, PieceBrief } from "../piece-view.ts";

/** What the labels of a shell and a layer say; undefined where the two are not to be compared at all. */
export type VerdictOf = (shell: PieceBrief, layer: PieceBrief) => LabelVerdict | undefined;

/**
 * Makes a label check for many pieces by the same facts. Labels that read alike are compared once; what a recorded
 * word or an inspector's eye says of exactly two pieces is weighed for these two.
 */
export function checkMany(facts: CheckFacts): VerdictOf {
  const known = new Map<string, LabelVerdict | undefined>();
  const apart = new Set([
    ...facts.comparedByEye.map(({ outer, inner }) => `${outer} ${inner}`),
    ...facts.acceptedCombinations.flatMap(({ scope }) =>
      scope.what === "pieces" ? [`${scope.shell} ${scope.layer}`] : [],
    ),
  ]);
  const alike = new Map<PieceBrief, string>();
  const keyOf = (piece: PieceBrief) => {
    const key = alike.get(piece) ?? readAlike(piece);
    alike.set(piece, key);
    return key;
  };
  return (shell, layer) => {
    if (apart.has(`${shell.id} ${layer.id}`)) return checkBriefs(shell, layer, facts)?.verdict;
    const key = `${keyOf(shell)} ${keyOf(layer)}`;
    if (!known.has(key)) known.set(key, checkBriefs(shell, layer, facts)?.verdict);
    return known.get(key);
  };
}

/** Tells a shell or a layer whose labels can be compared from anything else. */
export function sideOf(piece: PieceBrief): "shell" | "layer" | undefined {
  if (asOuter(piece)) return "shell";
  return asInner(piece) ? "layer" : undefined;
}

/** All that a label check reads of one piece. */
function readAlike({ kind, label, labelReading, model }: PieceBrief): string {
  const { maker, modelName, size, pattern, linerCode } = label;
  return JSON.stringify([kind.code, labelReading, model, maker, modelName, size, pattern, linerCode]);
}
