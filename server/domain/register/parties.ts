import type { OutsideId, ProviderId } from "../ids.ts";
import type { Versioned } from "../pieces/piece-entries.ts";
import type { LocalDate } from "../time.ts";

/** A firm that cleans, inspects or repairs; verified until a day, where the department has seen the certificate. */
export interface ProviderFacts {
  readonly name: string;
  readonly verifiedUntil?: LocalDate;
  /** Whose certificate it is. */
  readonly verifiedBy?: string;
}
export type ProviderEntry =
  | { readonly kind: "ProviderNamed"; readonly provider: ProviderFacts }
  | { readonly kind: "ProviderClosed" };
export interface ProviderState extends ProviderFacts {
  readonly id: ProviderId;
  readonly version: number;
  readonly closed: boolean;
}

/** Folds a provider's entries; the last naming holds, and opens what was closed. Undefined before the first. */
export function foldProvider(
  id: ProviderId,
  entries: readonly Versioned<ProviderEntry>[],
): ProviderState | undefined {
  let facts: ProviderFacts | undefined;
  let closed = false;
  for (const { entry } of entries) {
    if (entry.kind === "ProviderNamed") facts = entry.provider;
    closed = entry.kind === "ProviderClosed";
  }
  return facts && { id, version: entries.at(-1)?.version ?? 0, ...facts, closed };
}

/** Somebody outside the department who can have custody. */
export interface OutsideFacts {
  readonly name: string;
  readonly what: "hospital" | "investigator" | "maker" | "other department" | "other";
}
export type OutsideEntry =
  | { readonly kind: "OutsideNamed"; readonly outside: OutsideFacts }
  | { readonly kind: "OutsideClosed" };
export interface OutsideState extends OutsideFacts {
  readonly id: OutsideId;
  readonly version: number;
  readonly closed: boolean;
}

/** Folds an outside party's entries; the last naming holds, and opens what was closed. Undefined before the first. */
export function foldOutside(
  id: OutsideId,
  entries: readonly Versioned<OutsideEntry>[],
): OutsideState | undefined {
  let facts: OutsideFacts | undefined;
  let closed = false;
  for (const { entry } of entries) {
    if (entry.kind === "OutsideNamed") facts = entry.outside;
    closed = entry.kind === "OutsideClosed";
  }
  return facts && { id, version: entries.at(-1)?.version ?? 0, ...facts, closed };
}
