import type { PieceId } from "../ids.ts";
import { allowsInstall, type LabelVerdict } from "../label-check/label-verdict.ts";
import type { PieceBrief } from "../piece-view.ts";
import type { BenchList } from "./bench-list.ts";
import type { FittingPlan, PlacesOfKind } from "./plan-fittings.ts";

/** Why a place stays empty or a layer stays over: nothing here goes with it, or what does has a partner already. */
export type OverReason =
  | { readonly code: "nothing-here" }
  /** The best that the labels of any partner here say; none of them lets it in. */
  | { readonly code: "labels-stop"; readonly best: LabelVerdict; readonly with: PieceId }
  | { readonly code: "partners-taken" };

export interface EmptyPlace {
  readonly shell: PieceId;
  readonly layerKind: string;
  readonly why: OverReason;
  /** The shell's own layer, where the record names one; it does not lie here, or may not be installed. */
  readonly own?: PieceId;
}

export interface LayerOver {
  readonly layer: PieceId;
  readonly why: OverReason;
  /** Its own shell, where the record names one that does not lie here. */
  readonly ownShell?: PieceId;
}

/** A layer that does not lie here, and the shell that could be made complete in this respect if it came. */
export interface WouldFree {
  readonly missing: PieceId;
  readonly layerKind: string;
  /** Its own shell, which then gets it. */
  readonly goesIn: PieceId;
  /** That same shell, or the one to which the layer then goes that is planned in its place. */
  readonly frees: PieceId;
}

/** What is left when a plan is carried out, with why, and what one missing layer would change. */
export interface LeftOver {
  readonly empty: readonly EmptyPlace[];
  readonly over: readonly LayerOver[];
  readonly wouldFree: readonly WouldFree[];
}

/** Says which places stay empty and which layers stay over, why, and which one missing layer would end that. */
export function leftOver(list: BenchList, plan: FittingPlan): LeftOver {
  const here = new Set(list.pieces.map(({ id }) => id));
  return {
    empty: plan.places.flatMap((places) => emptyPlaces(plan, places)),
    over: plan.places.flatMap((places) => layersOver(plan, places, here)),
    wouldFree: plan.places.flatMap((places) => freedByOne(list, plan, places, here)),
  };
}

function emptyPlaces(plan: FittingPlan, { shells, layers, fittings, layerKind }: PlacesOfKind): EmptyPlace[] {
  const filled = new Set(fittings.map(({ shell }) => shell));
  return shells
    .filter(({ id }) => !filled.has(id))
    .map((shell) => {
      const own = plan.own.layerOf(shell.id, layerKind);
      const why = reasonOf(layers.map((layer) => [layer, plan.verdictOf(shell, layer)]));
      return { shell: shell.id, layerKind, why, ...(own ? { own } : {}) };
    });
}

function layersOver(
  plan: FittingPlan,
  { shells, layers, fittings }: PlacesOfKind,
  here: ReadonlySet<PieceId>,
): LayerOver[] {
  const used = new Set(fittings.map(({ layer }) => layer));
  return layers
    .filter(({ id }) => !used.has(id))
    .map((layer) => {
      const ownShell = plan.own.shellOf(layer.id);
      const why = reasonOf(shells.map((shell) => [shell, plan.verdictOf(shell, layer)]));
      return { layer: layer.id, why, ...(ownShell && !here.has(ownShell) ? { ownShell } : {}) };
    });
}

const BEST_FIRST: readonly LabelVerdict[] = ["not-read", "cannot-tell", "differs"];

function reasonOf(partners: readonly (readonly [PieceBrief, LabelVerdict | undefined])[]): OverReason {
  if (partners.some(([, verdict]) => verdict && allowsInstall(verdict))) return { code: "partners-taken" };
  for (const best of BEST_FIRST) {
    const found = partners.find(([, verdict]) => verdict === best);
    if (found) return { code: "labels-stop", best, with: found[0].id };
  }
  return { code: "nothing-here" };
}

/**
 * Says for each own layer that is not here what it would free: its own shell if that has none, else the shell that
 * could then have the layer planned in its place, directly or by passing on others that are only matched.
 */
function freedByOne(
  list: BenchList,
  plan: FittingPlan,
  places: PlacesOfKind,
  here: ReadonlySet<PieceId>,
): WouldFree[] {
  const { layerKind, shells, fittings } = places;
  const absent = new Set(list.absent.map(({ piece }) => piece.id));
  const byShell = new Map(fittings.map((fitting) => [fitting.shell, fitting]));
  return shells.flatMap(({ id: shell }) => {
    const missing = plan.own.layerOf(shell, layerKind);
    if (!missing || here.has(missing) || !absent.has(missing)) return [];
    const planned = byShell.get(shell);
    if (!planned) return [{ missing, layerKind, goesIn: shell, frees: shell }];
    const frees = planned.by === "matched" ? reachedByPassingOn(plan, places, planned.layer) : undefined;
    return frees ? [{ missing, layerKind, goesIn: shell, frees }] : [];
  });
}

/** Finds the empty shell with the lowest tag number that a released layer reaches over matched pairs. */
function reachedByPassingOn(
  plan: FittingPlan,
  { shells, layers, fittings }: PlacesOfKind,
  released: PieceId,
): PieceId | undefined {
  const briefs = new Map(layers.map((layer) => [layer.id, layer]));
  const byShell = new Map(fittings.map((fitting) => [fitting.shell, fitting]));
  const seen = new Set<PieceId>();
  const queue = [released];
  const empty = new Set<PieceId>();
  for (const id of queue) {
    const layer = briefs.get(id);
    if (!layer) continue;
    for (const shell of shells) {
      const verdict = plan.verdictOf(shell, layer);
      if (seen.has(shell.id) || !verdict || !allowsInstall(verdict)) continue;
      seen.add(shell.id);
      const planned = byShell.get(shell.id);
      if (!planned) empty.add(shell.id);
      else if (planned.by === "matched") queue.push(planned.layer);
    }
  }
  return shells.find(({ id }) => empty.has(id))?.id;
}
