import type { Uuid } from "../ids.ts";
import type { AcceptedScope } from "../label-check/accepted-combination.ts";
import type { Versioned } from "../pieces/piece-entries.ts";
import type { LocalDate } from "../time.ts";

export interface AcceptanceFacts {
  readonly scope: AcceptedScope;
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
