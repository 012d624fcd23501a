import type { PieceId } from "../ids.ts";
import type { LabelReading } from "../pieces/label.ts";
import { type LayerNeed, missingLayers } from "./completeness.ts";
import type { LabelCheck } from "./label-verdict.ts";

/** A hold as a set check needs it: which it is, and whatever the caller wants to show of it. */
export interface StandingHold {
  readonly version: number;
  readonly kind: string;
}

/** One piece that is to go out, with what is true of it now. */
export interface SetPiece<Hold extends StandingHold = StandingHold> {
  readonly pieceId: PieceId;
  /** Code of its kind. */
  readonly kind: string;
  readonly labelReading: LabelReading;
  readonly holds: readonly Hold[];
  readonly isSoiled: boolean;
  readonly isRetired: boolean;
  /** For a shell: what a complete garment of its model or kind needs. */
  readonly needs?: readonly LayerNeed[];
  /** For a layer: the shell in which it is fitted now. */
  readonly fittedIn?: PieceId;
  /** Whether it is a layer of a garment, which goes out in a shell. */
  readonly isLayer?: boolean;
}

/** The label check of one layer in the shell in which it is fitted. */
export interface FittedCheck {
  readonly shell: PieceId;
  readonly layer: PieceId;
  readonly check: LabelCheck;
}

export interface SetCheckInput<Hold extends StandingHold = StandingHold> {
  /** All pieces that would go out, the layers fitted in the shells among them. */
  readonly pieces: readonly SetPiece<Hold>[];
  /** One check a layer that is fitted in a shell of these pieces. */
  readonly checks: readonly FittedCheck[];
  /** Layers recorded in these shells, all of them; one that is not among the pieces stops. */
  readonly fitted: readonly {
    readonly shell: PieceId;
    readonly layer: PieceId;
    readonly layerKind: string;
  }[];
  /** Kinds that the member's outfit should have; what is lacking is only said. */
  readonly outfit: readonly string[];
  /** The department's setting "labels not read". */
  readonly labelsNotRead: "stop" | "only say so";
}

/** One thing about a set, with its facts. Whether it stops depends on where it stands in the answer. */
export type SetReason<Hold extends StandingHold = StandingHold> =
  | { readonly code: "on-hold"; readonly piece: PieceId; readonly hold: Hold }
  | { readonly code: "retired"; readonly piece: PieceId }
  | { readonly code: "soiled"; readonly piece: PieceId }
  | { readonly code: "layer-missing"; readonly piece: PieceId; readonly need: LayerNeed }
  | { readonly code: "fitted-layer-left-out"; readonly piece: PieceId; readonly layer: PieceId }
  | { readonly code: "fitting-not-checked"; readonly piece: PieceId; readonly layer: PieceId }
  | { readonly code: "fitted-elsewhere"; readonly piece: PieceId; readonly shell: PieceId }
  | {
      readonly code: "labels-differ";
      readonly piece: PieceId;
      readonly layer: PieceId;
      readonly check: LabelCheck;
    }
  | {
      readonly code: "labels-cannot-tell";
      readonly piece: PieceId;
      readonly layer: PieceId;
      readonly check: LabelCheck;
    }
  | {
      readonly code: "labels-not-read";
      readonly piece: PieceId;
      readonly layer?: PieceId;
      readonly check?: LabelCheck;
    }
  | {
      readonly code: "labels-accepted";
      readonly piece: PieceId;
      readonly layer: PieceId;
      readonly check: LabelCheck;
    }
  | {
      readonly code: "labels-by-eye";
      readonly piece: PieceId;
      readonly layer: PieceId;
      readonly check: LabelCheck;
    }
  | { readonly code: "loose-layer"; readonly piece: PieceId }
  | { readonly code: "outfit-lacks"; readonly kind: string };

/** What a whole set is told: everything that stops its issue, and everything that is only said. */
export interface SetCheck<Hold extends StandingHold = StandingHold> {
  readonly stops: readonly SetReason<Hold>[];
  readonly notes: readonly SetReason<Hold>[];
}

/**
 * Checks a whole set before it is issued and returns all reasons at once; any stop refuses the whole of it, so that
 * nothing is half issued. A garment that lacks a layer stops; an outfit that lacks a piece is only said, as are
 * an accepted combination, labels compared by eye and a layer without a shell. Unread labels stop or are only said,
 * as the department set it. It says nothing of fit on the wearer. Source: facts.md section 5, items 2 and 4.
 */
export function checkSet<Hold extends StandingHold>(input: SetCheckInput<Hold>): SetCheck<Hold> {
  const pieces = [...new Map(input.pieces.map((piece) => [piece.pieceId, piece])).values()];
  const stops: SetReason<Hold>[] = [];
  const notes: SetReason<Hold>[] = [];
  const unread = input.labelsNotRead === "stop" ? stops : notes;
  for (const piece of pieces) {
    stops.push(...stateOf(piece), ...assemblyOf(piece, pieces, input));
    const isInGarment = input.fitted.some(
      ({ shell, layer }) => shell === piece.pieceId || layer === piece.pieceId,
    );
    if (!isInGarment && piece.labelReading === "not yet read") {
      unread.push({ code: "labels-not-read", piece: piece.pieceId });
    }
    if (piece.isLayer && piece.fittedIn === undefined)
      notes.push({ code: "loose-layer", piece: piece.pieceId });
  }
  for (const { shell, layer, check } of input.checks.filter((fitting) => isHere(fitting, pieces))) {
    const facts = { piece: shell, layer, check };
    if (check.verdict === "differs") stops.push({ code: "labels-differ", ...facts });
    if (check.verdict === "cannot-tell") stops.push({ code: "labels-cannot-tell", ...facts });
    if (check.verdict === "not-read") unread.push({ code: "labels-not-read", ...facts });
    if (check.verdict === "accepted") notes.push({ code: "labels-accepted", ...facts });
    if (check.comparedByEye && isPassed(check)) notes.push({ code: "labels-by-eye", ...facts });
  }
  const kinds = new Set(pieces.map(({ kind }) => kind));
  for (const kind of new Set(input.outfit)) if (!kinds.has(kind)) notes.push({ code: "outfit-lacks", kind });
  return { stops, notes };
}

function stateOf<Hold extends StandingHold>(piece: SetPiece<Hold>): readonly SetReason<Hold>[] {
  const reasons: SetReason<Hold>[] = piece.holds.map((hold) => ({
    code: "on-hold",
    piece: piece.pieceId,
    hold,
  }));
  if (piece.isRetired) reasons.push({ code: "retired", piece: piece.pieceId });
  if (piece.isSoiled) reasons.push({ code: "soiled", piece: piece.pieceId });
  return reasons;
}

/** What is wrong with how a piece is put together: layers lacking, left out, unchecked, or in a shell that stays behind. */
function assemblyOf<Hold extends StandingHold>(
  piece: SetPiece<Hold>,
  pieces: readonly SetPiece<Hold>[],
  { fitted, checks }: SetCheckInput<Hold>,
): readonly SetReason<Hold>[] {
  const here = fitted.filter(({ shell }) => shell === piece.pieceId);
  const lacking = missingLayers(
    piece.needs ?? [],
    here.map(({ layerKind }) => layerKind),
  );
  const reasons: SetReason<Hold>[] = lacking.map((need) => ({
    code: "layer-missing",
    piece: piece.pieceId,
    need,
  }));
  for (const { shell, layer } of here) {
    const facts = { piece: shell, layer };
    if (!pieces.some(({ pieceId }) => pieceId === layer))
      reasons.push({ code: "fitted-layer-left-out", ...facts });
    else if (!checks.some((fitting) => fitting.shell === shell && fitting.layer === layer)) {
      reasons.push({ code: "fitting-not-checked", ...facts });
    }
  }
  const { fittedIn } = piece;
  if (fittedIn !== undefined && !pieces.some(({ pieceId }) => pieceId === fittedIn)) {
    reasons.push({ code: "fitted-elsewhere", piece: piece.pieceId, shell: fittedIn });
  }
  return reasons;
}

function isHere(fitting: FittedCheck, pieces: readonly SetPiece[]): boolean {
  return [fitting.shell, fitting.layer].every((id) => pieces.some(({ pieceId }) => pieceId === id));
}

function isPassed({ verdict }: LabelCheck): boolean {
  return verdict === "match" || verdict === "accepted";
}
