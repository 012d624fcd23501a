import type { Holder } from "../custody/holder.ts";
import type { PieceId } from "../ids.ts";
import type { FittingView, HoldView, PieceBrief } from "../piece-view.ts";
import type { StopOrSay } from "../register/policy.ts";
import type { FittedCheck, SetPiece } from "./check-set.ts";
import type { LayerNeed } from "./completeness.ts";
import { type ReadyToIssue, readyToIssue } from "./ready-to-issue.ts";

/** A piece that stands alone, or a shell with all that is fitted in it, as they are shown. */
export interface GarmentShown {
  readonly root: PieceBrief;
  readonly layers: readonly FittingView[];
  /** What a complete garment of this shell needs; empty for a piece that is no shell. */
  readonly needs: readonly LayerNeed[];
}

/**
 * Tells whether a garment is ready to issue from what is shown of it: the same answer as the check at issue gives,
 * without the words about an outfit. `holder` has custody of the piece that is asked about.
 */
export function readyOfGarment(
  { root, layers, needs }: GarmentShown,
  holder: Holder,
  labelsNotRead: StopOrSay,
): ReadyToIssue<HoldView> {
  const isShell = root.kind.layer === "shell";
  const checks = layers.flatMap(({ piece, check }): FittedCheck[] =>
    check ? [{ shell: root.id, layer: piece.id, check }] : [],
  );
  return readyToIssue<HoldView>(
    {
      pieces: [
        { ...asSetPiece(root), ...(isShell ? { needs } : {}) },
        ...layers.map(({ piece }) => asSetPiece(piece, root.id)),
      ],
      checks,
      fitted: layers.map(({ piece, layerKind }) => ({ shell: root.id, layer: piece.id, layerKind })),
      labelsNotRead,
    },
    holder,
  );
}

function asSetPiece(piece: PieceBrief, fittedIn?: PieceId): SetPiece<HoldView> {
  const { layer } = piece.kind;
  return {
    pieceId: piece.id,
    kind: piece.kind.code,
    labelReading: piece.labelReading,
    holds: piece.holds,
    isSoiled: piece.soiled,
    isRetired: piece.retiredAt !== undefined,
    isLayer: layer !== undefined && layer !== "shell",
    ...(fittedIn ? { fittedIn } : {}),
  };
}
