import type { HowCleaned } from "../pieces/piece-entries.ts";

/** What a kind of contaminant can ask for, as yes or no. */
export const ASKS = ["isolate", "specialist", "share a load", "dispose"] as const;
export type Ask = (typeof ASKS)[number];

/** One value of a rule with where it comes from. A value that is not confirmed is shown and never computed from. */
export interface Sourced<Value> {
  /** Null where nobody said a value yet. */
  readonly says: Value | null;
  readonly source: string;
  readonly caution?: string;
  readonly confirmed: boolean;
}

/** What one kind of contaminant asks for, and which cleanings end it: the department's policy, value by value. */
export interface ContaminantRule {
  /** Small letters and hyphens: `blood-or-body-fluid`. */
  readonly code: string;
  readonly name: string;
  readonly asks: Readonly<Record<Ask, Sourced<"yes" | "no">>>;
  /** Cleanings that end it by themselves; an empty list says that a person decides. */
  readonly endedBy: Sourced<readonly HowCleaned[]>;
  /** How it is handled, in words for whoever packs and carries it. */
  readonly handling?: Sourced<string>;
}

/** An answer by policy. "not set": the department has to set the value before anything follows from it. */
export type ByPolicy = "yes" | "no" | "not set";

/** Reads what a rule says to one ask: only a confirmed value speaks. */
export function asksFor(rule: ContaminantRule, ask: Ask): ByPolicy {
  const { says, confirmed } = rule.asks[ask];
  return confirmed && says !== null ? says : "not set";
}

/** Tells whether a cleaning ends what this rule is about. */
export function acceptsCleaning(rule: ContaminantRule, how: HowCleaned): ByPolicy {
  const { says, confirmed } = rule.endedBy;
  if (!confirmed || says === null) return "not set";
  return says.includes(how) ? "yes" : "no";
}

/** A kind that a department named in an event and has no rule for asks for nothing that could be computed. */
export function ruleOf(rules: readonly ContaminantRule[], code: string): ContaminantRule {
  return rules.find((rule) => rule.code === code) ?? unruled(code);
}

/** Makes the rule of a kind that nobody set anything for: every value waits for the department. */
export function unruled(code: string, name: string = code): ContaminantRule {
  const nothing = { says: null, source: "no source on record", confirmed: false } as const;
  return {
    code,
    name,
    asks: { isolate: nothing, specialist: nothing, "share a load": nothing, dispose: nothing },
    endedBy: nothing,
  };
}

/** Lists which values of a rule wait for the department. */
export function notSet(rule: ContaminantRule): readonly (Ask | "ended by")[] {
  const asks = ASKS.filter((ask) => asksFor(rule, ask) === "not set");
  return rule.endedBy.confirmed && rule.endedBy.says !== null ? asks : [...asks, "ended by"];
}
