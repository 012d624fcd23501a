import type { PieceId } from "../ids.ts";
import { allowsInstall } from "../label-check/label-verdict.ts";
import type { PieceBrief } from "../piece-view.ts";
import type { BenchList, FittingOnRecord } from "./bench-list.ts";
import type { VerdictOf } from "./check-many.ts";

/** What the record says of who belongs to whom. */
export interface OwnLayers {
  /** The layer of a kind that belongs to a shell; it may not lie on the bench. */
  layerOf(shell: PieceId, layerKind: string): PieceId | undefined;
  /** The shell to which a layer belongs; it may not lie on the bench. */
  shellOf(layer: PieceId): PieceId | undefined;
  wasBefore(shell: PieceId, layer: PieceId): boolean;
}

/**
 * Says which layer is each shell's own: the last that was in it, if that layer was in no other shell since and the
 * labels let it in today. What is fitted at this moment counts only if it was installed and the labels let it: a
 * layer that was found in a shell, or does not belong there, has its home where it was before.
 */
export function ownLayers(list: BenchList, verdictOf: VerdictOf): OwnLayers {
  const pieces = new Map<PieceId, PieceBrief>();
  for (const piece of [...list.pieces, ...list.absent.map((one) => one.piece)]) pieces.set(piece.id, piece);
  const isLegal = ({ shell, layer }: FittingOnRecord) => {
    const [outer, inner] = [pieces.get(shell), pieces.get(layer)];
    const verdict = outer && inner && verdictOf(outer, inner);
    return verdict !== undefined && allowsInstall(verdict);
  };
  const legal = list.fittings.filter(isLegal).sort(newestFirst);
  const settled = legal.filter(({ to, isFound }) => to !== undefined || !isFound);
  // Where nothing older tells, being found in a shell is all that is known.
  const ordered = [...settled, ...legal.filter((fitting) => !settled.includes(fitting))];
  const lastShell = new Map<PieceId, PieceId>();
  const lastLayer = new Map<string, PieceId>();
  const before = new Set<string>();
  for (const { shell, layer, layerKind } of ordered) {
    if (!lastShell.has(layer)) lastShell.set(layer, shell);
    const place = `${shell} ${layerKind}`;
    if (!lastLayer.has(place)) lastLayer.set(place, layer);
    before.add(`${shell} ${layer}`);
  }
  return {
    layerOf: (shell, layerKind) => {
      const layer = lastLayer.get(`${shell} ${layerKind}`);
      return layer && lastShell.get(layer) === shell ? layer : undefined;
    },
    shellOf: (layer) => lastShell.get(layer),
    wasBefore: (shell, layer) => before.has(`${shell} ${layer}`),
  };
}

function newestFirst(one: FittingOnRecord, other: FittingOnRecord): number {
  return one.from < other.from ? 1 : -1;
}
