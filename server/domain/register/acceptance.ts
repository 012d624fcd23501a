import type { ModelId, PieceId, Uuid } from "../ids.ts";
import type { Versioned } from "../pieces/piece-entries.ts";
import type { LocalDate } from "../time.ts";

/** What a maker's or verified provider's word covers: these two pieces, or these models, codes and sizes. */
export type AcceptanceScope =
  | { readonly what: "pieces"; readonly shell: PieceId; readonly layer: PieceId }
  | {
      readonly what: "models";
      readonly shellModel: ModelId;
      readonly layerModel?: ModelId;
      readonly linerCode?: string;
      readonly shellSize?: string;
      readonly layerSize?: string;
    };
export interface AcceptanceFacts {
  readonly scope: AcceptanceScope;
  readonly saidBy: "maker" | "provider";
  readonly saidByName: string;
  readonly document: string;
  readonly saidOn: LocalDate;
}
export type AcceptanceEntry =
  | { readonly kind: "CombinationAccepted"; readonly acceptance: AcceptanceFacts }
  | { readonly kind: "AcceptanceWithdrawn" };
export interface AcceptanceState extends AcceptanceFacts {
  readonly id: Uuid;
  readonly version: number;
  readonly withdrawn: boolean;
}

/** Folds the entries of one recorded word; a withdrawn one stays on file. Undefined before it is given. */
export function foldAcceptance(
  id: Uuid,
  entries: readonly Versioned<AcceptanceEntry>[],
): AcceptanceState | undefined {
  let facts: AcceptanceFacts | undefined;
  let withdrawn = false;
  for (const { entry } of entries) {
    if (entry.kind === "CombinationAccepted") facts = entry.acceptance;
    withdrawn = entry.kind === "AcceptanceWithdrawn";
  }
  return facts && { id, version: entries.at(-1)?.version ?? 0, ...facts, withdrawn };
}
