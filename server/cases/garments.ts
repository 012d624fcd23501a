import type { PieceId } from "../domain/ids.ts";
import { checkBriefs } from "../domain/label-check/check-briefs.ts";
import type { LayerNeed } from "../domain/label-check/completeness.ts";
import type { GarmentShown } from "../domain/label-check/ready-of-garment.ts";
import type { FittingView, PieceBrief } from "../domain/piece-view.ts";
import { usualLayers } from "../domain/register/standard-kinds.ts";
import type { GarmentFacts } from "../store/garment-facts.ts";

/** Puts a garment together from the record, with the label check of each layer run on it. */
export function garmentOf(found: GarmentFacts, root: PieceId): GarmentShown {
  const shell = briefOf(found, root);
  const layers = found.fittings
    .filter((fitting) => fitting.shell === root)
    .map((fitting): FittingView => {
      const layer = briefOf(found, fitting.layer);
      const check = checkBriefs(shell, layer, found.facts);
      const { layerKind, since, evidence } = fitting;
      return { piece: layer, layerKind, since, evidence, ...(check ? { check } : {}) };
    });
  return { root: shell, layers, needs: shell.kind.layer === "shell" ? layerNeeds(found, shell) : [] };
}

/** Gives a piece of the garments that were read. */
export function briefOf(found: GarmentFacts, piece: PieceId): PieceBrief {
  const brief = found.briefs.get(piece);
  if (!brief) throw new Error(`Piece ${piece} is on record in a garment and has no row.`);
  return brief;
}

/** What a complete garment of this shell needs: by its model, else the usual layers of its kind. */
function layerNeeds(found: GarmentFacts, shell: PieceBrief): readonly LayerNeed[] {
  const byModel = shell.model && found.models.get(shell.model)?.layers;
  return (byModel ?? usualLayers(shell.kind.code)).map((layerKind) => ({ layerKind }));
}
