import type { PieceId } from "../ids.ts";

/** How a layer on the bench stands to the record of the shell before it. Any of them may be true at once. */
export type RecordNote<Whereabouts> =
  /** This very layer is recorded in this shell. */
  | { readonly code: "recorded-here" }
  /** Another layer of this kind is recorded in this shell; `where` tells where that one is. */
  | { readonly code: "another-recorded"; readonly layer: PieceId; readonly where: Whereabouts }
  /** Nothing of this kind is fitted now; this one was the last to be in this shell, or another was. */
  | { readonly code: "last-worn-here" }
  | { readonly code: "another-last-here"; readonly layer: PieceId; readonly where: Whereabouts }
  /** The layer is recorded as fitted in another shell. */
  | { readonly code: "recorded-in-another-shell"; readonly shell: PieceId; readonly where: Whereabouts };

/** A piece with where it is, in whatever form the caller shows it. */
export interface Located<Whereabouts> {
  readonly pieceId: PieceId;
  readonly where: Whereabouts;
}

export interface RecordQuestion<Whereabouts> {
  readonly shell: PieceId;
  readonly layer: PieceId;
  /** The layer of this kind that is fitted in the shell now, by the record. */
  readonly fittedNow?: Located<Whereabouts>;
  /** The layer of this kind that was fitted last, when none is now. */
  readonly fittedLast?: Located<Whereabouts>;
  /** The shell in which the layer is fitted now, by the record. */
  readonly layerFittedIn?: Located<Whereabouts>;
}

/**
 * Tells whether the layer on the bench is the one on record in this shell, and if not which is and where that one is.
 * Apart from the labels: two layers may match one shell, and only one is its own.
 */
export function compareWithRecord<Whereabouts>(
  question: RecordQuestion<Whereabouts>,
): readonly RecordNote<Whereabouts>[] {
  const { shell, layer, fittedNow, fittedLast, layerFittedIn } = question;
  const notes: RecordNote<Whereabouts>[] = [];
  if (fittedNow?.pieceId === layer) notes.push({ code: "recorded-here" });
  else if (fittedNow)
    notes.push({ code: "another-recorded", layer: fittedNow.pieceId, where: fittedNow.where });
  else if (fittedLast?.pieceId === layer) notes.push({ code: "last-worn-here" });
  else if (fittedLast)
    notes.push({ code: "another-last-here", layer: fittedLast.pieceId, where: fittedLast.where });
  if (layerFittedIn && layerFittedIn.pieceId !== shell) {
    notes.push({
      code: "recorded-in-another-shell",
      shell: layerFittedIn.pieceId,
      where: layerFittedIn.where,
    });
  }
  return notes;
}
