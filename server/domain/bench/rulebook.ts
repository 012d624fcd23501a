import type { ContaminantRule } from "../contamination/contaminant-rule.ts";
import type { EventBrief } from "../contamination/standing-contamination.ts";
import type { EventId, ModelId, PieceId } from "../ids.ts";
import type { AcceptedCombination } from "../label-check/accepted-combination.ts";
import { checkLabels } from "../label-check/check-labels.ts";
import type { LayerNeed } from "../label-check/completeness.ts";
import type { InnerPiece, LabelCheck, OuterPiece } from "../label-check/label-verdict.ts";
import type { ModelTakes } from "../pieces/label.ts";
import type { PieceState } from "../pieces/piece-state.ts";
import type { KindFacts } from "../register/kind.ts";
import type { ModelFacts } from "../register/model.ts";
import type { Settings } from "../register/policy.ts";
import { usualLayers } from "../register/standard-kinds.ts";
import type { LocalDate } from "../time.ts";

/** What decisions at the bench are made by: kinds, the model table, recorded words and the department's settings. */
export interface Rulebook {
  readonly kinds: ReadonlyMap<string, KindFacts>;
  readonly modelTable: readonly ModelTakes[];
  readonly layersOfModel: ReadonlyMap<ModelId, readonly string[]>;
  /** How the maker or the department lets pieces of a model be washed, where the model table says it. */
  readonly washOfModel: ReadonlyMap<ModelId, NonNullable<ModelFacts["wash"]>>;
  readonly words: readonly AcceptedCombination[];
  readonly settings: Settings;
  /** What kinds of contaminants ask for, and the events that the pieces in question met. */
  readonly contaminants: readonly ContaminantRule[];
  readonly events: ReadonlyMap<EventId, EventBrief>;
  /** The calendar day of an instant in the department's time zone. */
  readonly dayOf: (at: number) => LocalDate;
}

/** Tells whether a piece is a shell that layers go in. */
export function isShell(state: PieceState, book: Rulebook): boolean {
  return book.kinds.get(state.kind)?.layer === "shell";
}

/** Tells whether a piece is a layer that goes in a shell. */
export function isLayer(state: PieceState, book: Rulebook): boolean {
  const layer = book.kinds.get(state.kind)?.layer;
  return layer !== undefined && layer !== "shell";
}

/** Gives the kinds of layers that a complete garment of this shell needs: by its model, else the usual ones. */
export function layerNeeds(shell: PieceState, book: Rulebook): readonly LayerNeed[] {
  const byModel = shell.model === undefined ? undefined : book.layersOfModel.get(shell.model);
  return (byModel ?? usualLayers(shell.kind)).map((layerKind) => ({ layerKind }));
}

/** A shell as a label check takes it; undefined for a piece that is none, or whose garment has no layers to check. */
export function asOuter(state: PieceState, book: Rulebook): OuterPiece | undefined {
  const kind = book.kinds.get(state.kind);
  if (kind?.layer !== "shell" || !kind.garment || kind.garment === "coverall") return undefined;
  return { ...labelled(state, kind), garment: kind.garment };
}

/** A layer as a label check takes it; undefined for a piece that is none. */
export function asInner(state: PieceState, book: Rulebook): InnerPiece | undefined {
  const kind = book.kinds.get(state.kind);
  if (!kind?.layer || kind.layer === "shell" || !kind.garment || kind.garment === "coverall")
    return undefined;
  return { ...labelled(state, kind), garment: kind.garment, layer: kind.layer };
}

function labelled(state: PieceState, kind: KindFacts) {
  return {
    pieceId: state.id,
    kind: state.kind,
    family: kind.family,
    label: state.label,
    labelReading: state.reading,
    ...(state.model ? { modelId: state.model } : {}),
  };
}

/** Checks the labels of a shell and a layer by the rulebook. Undefined where one of them is not what it should be. */
export function checkFit(shell: PieceState, layer: PieceState, book: Rulebook): LabelCheck | undefined {
  const outer = asOuter(shell, book);
  const inner = asInner(layer, book);
  if (!outer || !inner) return undefined;
  const eye = layer.byEye.findLast((seen) => seen.shell === (shell.id as PieceId));
  return checkLabels({
    outer,
    inner,
    modelTable: book.modelTable,
    acceptedCombinations: book.words,
    ...(eye
      ? { comparedByEye: { outer: shell.id, inner: layer.id, by: eye.by, on: book.dayOf(eye.at) } }
      : {}),
  });
}
