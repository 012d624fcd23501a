import type { Uuid } from "../ids.ts";
import type { LayerRole as InnerRole } from "../label-check/label-verdict.ts";
import type { Versioned } from "../pieces/piece-entries.ts";

export const RULE_FAMILIES = ["structural", "proximity", "wildland", "technical rescue", "other"] as const;
export type RuleFamily = (typeof RULE_FAMILIES)[number];
export type Garment = "coat" | "pants" | "coverall";
/** What a layer is in its garment; a label check knows all but the shell as the layer that goes in. */
export type LayerRole = "shell" | InnerRole;

/** What a piece can be. Kinds are data: a department adds its own. */
export interface KindFacts {
  readonly code: string;
  readonly name: string;
  readonly family: RuleFamily;
  /** The garment that it is a layer of; absent for a piece that stands alone, such as a helmet. */
  readonly garment?: Garment;
  readonly layer?: LayerRole;
  /** Counted without tags, such as suspenders, or kept track of one by one. */
  readonly counted: boolean;
  /** Where a tag can sit, the first being the usual one: main, left, right, second. */
  readonly positions: readonly string[];
}
export interface KindEntry {
  readonly kind: "KindDescribed";
  readonly describes: KindFacts;
}
export interface KindState extends KindFacts {
  readonly id: Uuid;
  readonly version: number;
}

/** Folds a kind's entries; the last description holds. Undefined before the first. */
export function foldKind(id: Uuid, entries: readonly Versioned<KindEntry>[]): KindState | undefined {
  const last = entries.at(-1);
  return last && { id, version: last.version, ...last.entry.describes };
}
