import type { ModelTakes } from "../pieces/label.ts";
import type { AcceptanceState } from "./acceptance.ts";
import type { ModelState } from "./model.ts";
import type { Settings } from "./policy.ts";

/** A row of the model table as screens show it; `sourceBy` names whoever vouches for it. */
export interface ModelShown extends Omit<ModelState, "takes"> {
  readonly takes: readonly Omit<ModelTakes, "shellModel">[];
  readonly sourceBy: string;
}

/** The recorded words, those in force first; `names` has the display text of the pieces and models in them, by id. */
export interface AcceptancesShown {
  readonly acceptances: readonly AcceptanceState[];
  readonly names: Readonly<Record<string, string>>;
}

/** The settings as they stand. */
export type SettingsShown = Settings;
