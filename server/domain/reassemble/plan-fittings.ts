import type { PieceId } from "../ids.ts";
import { allowsInstall, type LabelVerdict } from "../label-check/label-verdict.ts";
import type { PieceBrief } from "../piece-view.ts";
import { assignMost } from "./assign-most.ts";
import { type BenchList, byTagNumber, type Pair } from "./bench-list.ts";
import { checkMany, sideOf, type VerdictOf } from "./check-many.ts";
import { fittingCost } from "./fitting-cost.ts";
import { type OwnLayers, ownLayers } from "./own-layers.ts";

/** Why a layer is to go in a shell. `in place`: it is there already. */
export type PairedBy = "in place" | "own" | "matched";

export interface PlannedFitting extends Pair {
  readonly layerKind: string;
  readonly by: PairedBy;
  readonly verdict: LabelVerdict;
}

/** All places of one kind of layer in the shells on the bench, with what goes in them. */
export interface PlacesOfKind {
  readonly layerKind: string;
  /** Shells that have such a place, by tag number. */
  readonly shells: readonly PieceBrief[];
  /** Layers of the kind that may be installed, by tag number. */
  readonly layers: readonly PieceBrief[];
  readonly fittings: readonly PlannedFitting[];
}

export interface FittingPlan {
  readonly places: readonly PlacesOfKind[];
  readonly own: OwnLayers;
  readonly verdictOf: VerdictOf;
  /** Pieces that may not be installed at all: retired, or held as evidence. */
  readonly barred: readonly PieceBrief[];
  /** Pieces that are neither a shell nor a layer with labels to compare. */
  readonly others: readonly PieceBrief[];
}

/**
 * Says which layer goes in which shell. What is in its own shell by the record, or was confirmed at this bench, stays.
 * Then every shell gets its own layer where that lies here. Of what is left as many fittings are made as the labels
 * let, then those that suit best (fittingCost), then as shown before, then by tag number. Only labels that match or
 * are accepted let a layer in. Each kind of layer has one place in a shell that needs it or had it.
 */
export function planFittings(
  list: BenchList,
  confirmed: readonly Pair[] = [],
  shown: readonly Pair[] = [],
): FittingPlan {
  const verdictOf = checkMany(list.facts);
  const own = ownLayers(list, verdictOf);
  const sorted = byTagNumber(list.pieces);
  const barred = sorted.filter(isBarred);
  const free = sorted.filter((piece) => !isBarred(piece));
  const shells = free.filter((piece) => sideOf(piece) === "shell");
  const layers = free.filter((piece) => sideOf(piece) === "layer");
  const kinds = new Set([
    ...shells.flatMap(({ id }) => (list.needs[id] ?? []).map(({ layerKind }) => layerKind)),
    ...layers.map(({ kind }) => kind.code),
  ]);
  const board = { list, own, verdictOf, confirmed, shown };
  return {
    places: [...kinds].map((layerKind) => {
      const ofKind = layers.filter(({ kind }) => kind.code === layerKind);
      const with_ = shells.filter((shell) => hasPlace(list, own, shell, layerKind));
      return planKind(board, layerKind, with_, ofKind);
    }),
    own,
    verdictOf,
    barred,
    others: free.filter((piece) => sideOf(piece) === undefined),
  };
}

interface PlanBoard {
  readonly list: BenchList;
  readonly own: OwnLayers;
  readonly verdictOf: VerdictOf;
  readonly confirmed: readonly Pair[];
  readonly shown: readonly Pair[];
}

/** What no install takes, whatever the labels say; the decision to install refuses the same. */
function isBarred({ retiredAt, holds }: PieceBrief): boolean {
  return retiredAt !== undefined || holds.some(({ kind }) => kind === "evidence");
}

function hasPlace(list: BenchList, own: OwnLayers, shell: PieceBrief, layerKind: string): boolean {
  const isNeeded = (list.needs[shell.id] ?? []).some((need) => need.layerKind === layerKind);
  return isNeeded || own.layerOf(shell.id, layerKind) !== undefined;
}

function planKind(
  board: PlanBoard,
  layerKind: string,
  shells: readonly PieceBrief[],
  layers: readonly PieceBrief[],
): PlacesOfKind {
  const { own, verdictOf } = board;
  const fittings: PlannedFitting[] = [];
  const open = {
    shells: new Map(shells.map((one) => [one.id, one])),
    layers: new Map(layers.map((one) => [one.id, one])),
  };
  const take = (pairs: readonly Pair[], by: PairedBy) => {
    for (const pair of pairs) {
      const [shell, layer] = [open.shells.get(pair.shell), open.layers.get(pair.layer)];
      const verdict = shell && layer && verdictOf(shell, layer);
      if (!verdict || (by !== "in place" && !allowsInstall(verdict))) continue;
      fittings.push({ shell: pair.shell, layer: pair.layer, layerKind, by, verdict });
      open.shells.delete(pair.shell);
      open.layers.delete(pair.layer);
    }
  };
  take([...board.confirmed, ...inPlace(board, layerKind)], "in place");
  const owned = [...open.shells.keys()].map((shell) => ({ shell, layer: own.layerOf(shell, layerKind) }));
  take(
    owned.flatMap(({ shell, layer }) => (layer ? [{ shell, layer }] : [])),
    "own",
  );
  take(matched(board, [...open.shells.values()], [...open.layers.values()]), "matched");
  return { layerKind, shells, layers, fittings };
}

/** What is fitted by the record and is at home there. */
function inPlace({ list, own }: PlanBoard, layerKind: string): readonly Pair[] {
  return list.fittings.filter(
    (fitting) =>
      fitting.to === undefined &&
      fitting.layerKind === layerKind &&
      own.layerOf(fitting.shell, layerKind) === fitting.layer,
  );
}

function matched(
  { own, verdictOf, shown }: PlanBoard,
  shells: readonly PieceBrief[],
  layers: readonly PieceBrief[],
): readonly Pair[] {
  const columns = layers.length;
  const costs = new Float64Array(shells.length * columns).fill(Infinity);
  for (const [row, shell] of shells.entries()) {
    for (const [column, layer] of layers.entries()) {
      const verdict = verdictOf(shell, layer);
      if (!verdict || !allowsInstall(verdict)) continue;
      costs[row * columns + column] = fittingCost(shell, layer, own.wasBefore(shell.id, layer.id));
    }
  }
  const place = new Map<PieceId, number>(layers.map(({ id }, column) => [id, column]));
  const before = new Map(shown.map(({ shell, layer }) => [shell, place.get(layer)]));
  const shownRows = Int32Array.from(shells, ({ id }) => before.get(id) ?? -1);
  const found = assignMost({ rows: shells.length, columns, costs }, shownRows);
  return shells.flatMap(({ id: shell }, row) => {
    const layer = layers[found[row] ?? -1]?.id;
    return layer ? [{ shell, layer }] : [];
  });
}
