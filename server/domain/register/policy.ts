import type { ContaminantRule } from "../contamination/contaminant-rule.ts";
import type { Uuid } from "../ids.ts";
import type { Versioned } from "../pieces/piece-entries.ts";
import type { TagNumber } from "../tags/tag-number.ts";

/** The one subject that a department's settings are entries of. */
export const POLICY_ID = "00000000-0000-7000-8000-000000000002" as Uuid;

export type StopOrSay = "stop" | "only say so";

/** A department's settings, each with the value it starts with. Every change is an entry. */
export interface Settings {
  readonly "department name": string;
  readonly "department code": string;
  /** Whether a label that nobody has read yet stops an issue. */
  readonly "labels not read": StopOrSay;
  readonly "screen words": "US" | "international";
  readonly "time zone": string;
  /** Limits for a washing programme, each in figures. Their source stands beside them: `LIMITS_SOURCE`. */
  readonly "wash temperature, most °F": string;
  readonly "wash temperature, most °C": string;
  readonly "detergent pH, least": string;
  readonly "detergent pH, most": string;
  readonly "extraction, most G": string;
}
export const STARTING_SETTINGS: Settings = {
  "department name": "",
  "department code": "",
  "labels not read": "stop",
  "screen words": "US",
  "time zone": "UTC",
  // facts.md 1.5, 2014/2020 family [S34][S35][S36]; the two temperatures are rounded figures and not equal.
  "wash temperature, most °F": "105",
  "wash temperature, most °C": "40",
  "detergent pH, least": "6.0",
  "detergent pH, most": "10.5",
  "extraction, most G": "100",
};

/** What the next scan does, as a card can set it. */
export const ACTION_CARDS = [
  "look up",
  "turn in soiled",
  "turn in",
  "install",
  "separate",
  "attach tag",
  "as found",
  "washed",
  "wiped",
  "reassemble",
  "confirm",
  "clear",
] as const;
export type ActionCard = (typeof ACTION_CARDS)[number];

export type PolicyEntry =
  | { readonly kind: "SettingSet"; readonly name: keyof Settings; readonly value: string }
  | { readonly kind: "ActionCarded"; readonly action: ActionCard; readonly number: TagNumber }
  | { readonly kind: "ContaminantRuled"; readonly rule: ContaminantRule };

export interface PolicyState {
  readonly id: Uuid;
  readonly version: number;
  readonly settings: Settings;
  readonly cards: Readonly<Partial<Record<ActionCard, TagNumber>>>;
  /** What the department ruled of kinds of contaminants, its own kinds included. */
  readonly contaminants: readonly ContaminantRule[];
}

/** Folds the policy's entries: the last value of each setting, card of each action and rule of each contaminant hold. */
export function foldPolicy(id: Uuid, entries: readonly Versioned<PolicyEntry>[]): PolicyState {
  const settings: Record<string, string> = { ...STARTING_SETTINGS };
  const cards: Partial<Record<ActionCard, TagNumber>> = {};
  const rules = new Map<string, ContaminantRule>();
  for (const { entry } of entries) {
    switch (entry.kind) {
      case "SettingSet":
        settings[entry.name] = entry.value;
        break;
      case "ActionCarded":
        cards[entry.action] = entry.number;
        break;
      case "ContaminantRuled":
        rules.set(entry.rule.code, entry.rule);
        break;
      default:
        entry satisfies never;
    }
  }
  const version = entries.at(-1)?.version ?? 0;
  const contaminants = [...rules.values()];
  return { id, version, settings: settings as unknown as Settings, cards, contaminants };
}
