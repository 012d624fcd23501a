import type { ModelId, PieceId } from "../ids.ts";
import type { LabelReading, MakersLabel } from "../pieces/label.ts";
import type { LocalDate, MadeOn } from "../time.ts";
import type { AcceptedCombination } from "./accepted-combination.ts";
import type { SizeDoubt } from "./normalise-size.ts";

/** What comparing two labels says. `differs`, `cannot-tell` and `not-read` stop an installation alike. */
export type LabelVerdict = "match" | "accepted" | "not-read" | "cannot-tell" | "differs";

/** The rows of a check, in the order in which they are always given. `made` is shown and never compared. */
export type LabelField = "garment" | "maker" | "model-or-code" | "size" | "pattern" | "made";
export type GarmentKind = "coat" | "pants" | "coverall";
/** Which layer of a garment a piece is. A liner may come as its thermal and its moisture layer apart. */
export type LayerRole = "liner" | "thermal-layer" | "moisture-layer" | "winter-liner" | "drd";
export type Side = "outer" | "inner" | "both";

interface LabelledPiece {
  readonly pieceId: PieceId;
  /** Code of its kind, as the kinds table has it. */
  readonly kind: string;
  readonly garment: GarmentKind;
  /** Rule family of its kind: structural, proximity, … */
  readonly family: string;
  readonly label: MakersLabel;
  readonly labelReading: LabelReading;
  readonly modelId?: ModelId;
}
/** A coat or pants shell, as a label check needs it. */
export type OuterPiece = LabelledPiece;
/** A layer that is to be fitted in a shell, as a label check needs it. */
export interface InnerPiece extends LabelledPiece {
  readonly layer: LayerRole;
}

/** One thing that keeps two labels from matching, with the facts that led to it. */
export type LabelReason =
  | { readonly code: "garment-differs"; readonly outer: GarmentKind; readonly inner: GarmentKind }
  | { readonly code: "family-differs"; readonly outer: string; readonly inner: string }
  | { readonly code: "maker-differs"; readonly outer: string; readonly inner: string }
  | {
      readonly code: "takes-another";
      readonly takes: readonly string[];
      readonly is: string;
      readonly said: TakesSource;
    }
  | { readonly code: "code-unclear"; readonly takes: string; readonly is: string; readonly said: TakesSource }
  | { readonly code: "nothing-ties"; readonly missing: MissingTie }
  | { readonly code: "size-differs"; readonly outer: string; readonly inner: string }
  | { readonly code: "size-unclear"; readonly outer: string; readonly inner: string; readonly why: SizeDoubt }
  | { readonly code: "size-another-scale"; readonly outer: string; readonly inner: string }
  | { readonly code: "pattern-differs"; readonly outer: string; readonly inner: string }
  | { readonly code: "field-unknown"; readonly field: "maker" | "size" | "pattern"; readonly side: Side }
  | { readonly code: "label-not-read"; readonly side: Side }
  | { readonly code: "label-not-legible"; readonly side: Side };

/** Who says what the shell takes: the model table, or the shell's own label. */
export type TakesSource = "model-table" | "shell-label";
/** What is not recorded, so that nothing ties the layer to the shell. */
export type MissingTie = "outer-model" | "table-row" | "inner-model" | "inner-code" | "inner-model-and-code";

/** One row of a check. `shown` is a row that is not compared. Values are as printed; absent means unknown. */
export interface LabelRow {
  readonly field: LabelField;
  readonly outer?: string;
  readonly inner?: string;
  readonly verdict: LabelVerdict | "shown";
  /** Why the row is as it is. An accepted row and one compared by eye keep the reasons that were overcome. */
  readonly reasons: readonly LabelReason[];
  readonly acceptedBy?: AcceptedCombination;
}

/** An inspector's record that the labels of exactly these two pieces were compared by eye. */
export interface ComparedByEye {
  readonly outer: PieceId;
  readonly inner: PieceId;
  readonly by: string;
  readonly on: LocalDate;
}

/** The whole answer of a label check: verdict, rows in fixed order, all reasons at once. */
export interface LabelCheck {
  readonly verdict: LabelVerdict;
  readonly rows: readonly LabelRow[];
  /** Every reason that still stops; empty when the verdict is `match` or `accepted`. */
  readonly reasons: readonly LabelReason[];
  /** The recorded words that rows rest on. */
  readonly acceptedBy: readonly AcceptedCombination[];
  /** Set when the verdict rests on it: a match must then say by whom and when. */
  readonly comparedByEye?: ComparedByEye;
  readonly made: { readonly outer?: MadeOn; readonly inner?: MadeOn };
}

const ORDER: readonly LabelVerdict[] = ["match", "accepted", "not-read", "cannot-tell", "differs"];

/** Returns the verdict of a whole check from its rows: the worst of them. `shown` rows do not count. */
export function worstVerdict(verdicts: readonly (LabelVerdict | "shown")[]): LabelVerdict {
  const ranks = verdicts.map((verdict) => (verdict === "shown" ? 0 : ORDER.indexOf(verdict)));
  return ORDER[Math.max(0, ...ranks)] ?? "differs";
}

/** Tells whether a verdict lets a layer be installed: labels match, or the maker's recorded word accepts it. */
export function allowsInstall(verdict: LabelVerdict): boolean {
  return verdict === "match" || verdict === "accepted";
}
