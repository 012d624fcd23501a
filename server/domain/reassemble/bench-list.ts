import type { PieceId } from "../ids.ts";
import type { LayerNeed } from "../label-check/completeness.ts";
import type { CheckFacts, LastSeen, Named, Names, PieceBrief, WireInstant } from "../piece-view.ts";

/** One fitting on record, of a layer or shell that lies on the bench. */
export interface FittingOnRecord {
  readonly layer: PieceId;
  readonly layerKind: string;
  readonly shell: PieceId;
  readonly from: WireInstant;
  /** Absent: fitted still. */
  readonly to?: WireInstant;
  /** Recorded as found so, not installed by somebody who checked the labels. */
  readonly isFound: boolean;
}

/** A piece that belongs to something on the bench and does not lie there. */
export interface AbsentPiece {
  readonly piece: PieceBrief;
  /** The shell in which it is fitted now, by the record. */
  readonly fittedIn?: Named;
  readonly lastSeen?: LastSeen;
  /** Where the pieces are now that were in its last load with it. */
  readonly loadMatesAt: readonly Named[];
}

/** What the record says of the pieces on the bench: all that says which goes in which. */
export interface BenchList {
  readonly pieces: readonly PieceBrief[];
  readonly facts: CheckFacts;
  /** The layers that a complete garment of each shell needs. */
  readonly needs: Readonly<Record<PieceId, readonly LayerNeed[]>>;
  /** Of each layer and of each shell with a kind of layer the latest few, newest first. */
  readonly fittings: readonly FittingOnRecord[];
  readonly absent: readonly AbsentPiece[];
  readonly names: Names;
}

/** The pieces that the last load of a machine took out: what lies before whoever opens its door. */
export interface LastLoad {
  readonly pieces: readonly PieceId[];
}

/** A layer that goes in a shell. */
export interface Pair {
  readonly shell: PieceId;
  readonly layer: PieceId;
}

/** Sorts pieces by tag number; those without a tag follow by id. */
export function byTagNumber(pieces: readonly PieceBrief[]): readonly PieceBrief[] {
  const key = ({ number, id }: PieceBrief) => (number ? `0${number}` : `1${id}`);
  return [...pieces].sort((a, b) => (key(a) < key(b) ? -1 : 1));
}
