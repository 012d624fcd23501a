import type { ModelId, PieceId, Uuid } from "../ids.ts";
import type { MakersLabel } from "../pieces/label.ts";
import type { LocalDate } from "../time.ts";
import { compareCodes, isSameName, written } from "./fold-words.ts";
import { normaliseSize } from "./normalise-size.ts";

/** Differences that a recorded word can accept. That a pants liner lies in a coat is never one of them. */
export type AcceptableField = "family" | "maker" | "model-or-code" | "size" | "pattern";

/** A maker's or a verified provider's recorded word that a combination may be used. In force when given here. */
export interface AcceptedCombination {
  readonly id: Uuid;
  readonly saidBy: "maker" | "provider";
  readonly saidByName: string;
  readonly saidOn: LocalDate;
  readonly document: string;
  readonly scope: AcceptedScope;
}

/** What a recorded word reaches, and so which differences: nothing outside its scope is ever accepted by it. */
export type AcceptedScope =
  | {
      readonly what: "pieces";
      readonly shell: PieceId;
      readonly layer: PieceId;
      /** The differences that the word names; absent: whatever the labels of these two show. */
      readonly differences?: readonly AcceptableField[];
    }
  /**
   * A shell model with a layer model or a liner code (one of them must stand). Reaches model or code; with a layer
   * model also maker and family, which follow from it. With both sizes it holds for those sizes alone and reaches
   * size too; one size without the other reaches nothing.
   */
  | {
      readonly what: "models";
      readonly shellModel: ModelId;
      readonly layerModel?: ModelId;
      readonly linerCode?: string;
      readonly shellSize?: string;
      readonly layerSize?: string;
    }
  /** Shells of one maker that take one liner code. Reaches model or code. */
  | {
      readonly what: "codes";
      readonly maker: string;
      readonly shellTakes: string;
      readonly linerCode: string;
    };

interface Combined {
  readonly pieceId: PieceId;
  readonly modelId?: ModelId;
  readonly label: MakersLabel;
}

/** Two pieces that a recorded word may name, and the codes that the shell takes by the table or by its label. */
export interface Combination {
  readonly outer: Combined;
  readonly inner: Combined;
  readonly outerTakes: readonly string[];
}

/** Returns the first recorded word that accepts a difference of this field between these two pieces, if any. */
export function findAcceptance(
  field: AcceptableField,
  combination: Combination,
  words: readonly AcceptedCombination[],
): AcceptedCombination | undefined {
  return words.find(({ scope }) => reaches(scope, field, combination));
}

function reaches(
  scope: AcceptedScope,
  field: AcceptableField,
  { outer, inner, outerTakes }: Combination,
): boolean {
  switch (scope.what) {
    case "pieces":
      return (
        scope.shell === outer.pieceId &&
        scope.layer === inner.pieceId &&
        (scope.differences === undefined || scope.differences.includes(field))
      );
    case "models":
      return (
        scope.shellModel === outer.modelId &&
        namesLayer(scope, inner) &&
        fieldsOf(scope).includes(field) &&
        isEachSize(scope, outer.label, inner.label)
      );
    case "codes":
      return (
        field === "model-or-code" &&
        isName(outer.label.maker, scope.maker) &&
        isName(inner.label.maker, scope.maker) &&
        outerTakes.some((code) => isCode(code, scope.shellTakes)) &&
        isCode(inner.label.linerCode, scope.linerCode)
      );
    default:
      return scope satisfies never;
  }
}

type ModelScope = AcceptedScope & { readonly what: "models" };

/** A word that names neither a layer model nor a liner code reaches nothing. */
function namesLayer(scope: ModelScope, inner: Combined): boolean {
  const isModel = scope.layerModel === undefined || scope.layerModel === inner.modelId;
  const isItsCode = scope.linerCode === undefined || isCode(inner.label.linerCode, scope.linerCode);
  return (scope.layerModel !== undefined || scope.linerCode !== undefined) && isModel && isItsCode;
}

function fieldsOf(scope: ModelScope): readonly AcceptableField[] {
  const byModel: readonly AcceptableField[] = scope.layerModel === undefined ? [] : ["maker", "family"];
  const hasSizes = scope.shellSize !== undefined && scope.layerSize !== undefined;
  return ["model-or-code", ...byModel, ...(hasSizes ? (["size"] as const) : [])];
}

function isEachSize(scope: ModelScope, outer: MakersLabel, inner: MakersLabel): boolean {
  if (scope.shellSize === undefined && scope.layerSize === undefined) return true;
  return isSize(outer.size, scope.shellSize) && isSize(inner.size, scope.layerSize);
}

function isName(printed: string | undefined, said: string): boolean {
  const name = written(printed);
  return name !== undefined && isSameName(name, said);
}

function isCode(printed: string | undefined, said: string): boolean {
  const code = written(printed);
  return code !== undefined && compareCodes(code, said) === "same";
}

function isSize(printed: string | undefined, said: string | undefined): boolean {
  const [size, named] = [written(printed), written(said)];
  return size !== undefined && named !== undefined && normaliseSize(size) === normaliseSize(named);
}
