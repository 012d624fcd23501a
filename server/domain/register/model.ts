import type { ModelId, Uuid } from "../ids.ts";
import type { ModelTakes } from "../pieces/label.ts";
import type { Versioned } from "../pieces/piece-entries.ts";
import type { LocalDate } from "../time.ts";

/** One row of the model table: filled once, used for all pieces of the model. */
export interface ModelFacts {
  readonly maker: string;
  readonly name: string;
  readonly kind: string;
  /** Kinds of layers that a complete garment of this shell needs. */
  readonly layers: readonly string[];
  readonly takes: readonly Omit<ModelTakes, "shellModel">[];
  /** How it may be washed, in the maker's words or the department's. */
  readonly wash?: "machine" | "machine, in a mesh bag" | "by hand" | "not at all";
  readonly source: { readonly what: ModelSource; readonly by: Uuid; readonly on?: LocalDate };
}
export type ModelSource = "maker's letter" | "worn-together label" | "imported";
export interface ModelEntry {
  readonly kind: "ModelDescribed";
  readonly model: ModelFacts;
}
export interface ModelState extends ModelFacts {
  readonly id: ModelId;
  readonly version: number;
}

/** Folds a model's entries; the last description holds. Undefined before the first. */
export function foldModel(id: ModelId, entries: readonly Versioned<ModelEntry>[]): ModelState | undefined {
  const last = entries.at(-1);
  return last && { id, version: last.version, ...last.entry.model };
}
