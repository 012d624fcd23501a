import type { BenchList } from "./bench-list.ts";
import type { FittingPlan } from "./plan-fittings.ts";
import { type ExchangeStep, untangle } from "./untangle.ts";

/**
 * Lists what to exchange on a bench where layers are in wrong shells by the record: separations and installs, as few
 * as can be. Empty where nothing is fitted wrong; what only lies loose is no tangle.
 */
export function findTangles(list: BenchList, plan: FittingPlan): readonly ExchangeStep[] {
  return plan.places.flatMap(({ layerKind, fittings }) => {
    const now = list.fittings.filter(
      (fitting) => fitting.to === undefined && fitting.layerKind === layerKind,
    );
    const wrong = fittings.filter(({ shell, layer }) =>
      now.some((one) => (one.shell === shell) !== (one.layer === layer)),
    );
    return wrong.length === 0 ? [] : untangle(now, wrong);
  });
}
