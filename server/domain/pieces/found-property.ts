import type { MemberId } from "../ids.ts";
import type { Instant } from "../time.ts";
import type { PropertyGivenBack } from "./piece-entries.ts";

/** Something of a person's that was found in a piece, until it is given back. */
export interface FoundProperty {
  readonly receipt: string;
  readonly foundAt: Instant;
  readonly version: number;
  readonly givenBackAt?: Instant;
  readonly givenBackTo?: MemberId;
}

/** Marks what was found as given back, where the entry names its receipt. What was given back once stays so. */
export function givenBack(found: FoundProperty, entry: PropertyGivenBack): FoundProperty {
  if (found.receipt !== entry.receipt || found.givenBackAt !== undefined) return found;
  return { ...found, givenBackAt: entry.at, ...(entry.to ? { givenBackTo: entry.to } : {}) };
}
