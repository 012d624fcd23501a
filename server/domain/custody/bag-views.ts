import type { PieceId, PlaceId } from "../ids.ts";
import type { Named, WireInstant } from "../piece-view.ts";
import type { TagNumber } from "../tags/tag-number.ts";

/** What is on record in a bag whose card was scanned. */
export interface BagAtCard {
  readonly pieces: readonly {
    readonly id: PieceId;
    readonly name: string;
    readonly number?: TagNumber;
    readonly isPresumed: boolean;
  }[];
  readonly since?: WireInstant;
}

/** A bag as it waits: how much is in it, since when, whose, and for which events it is on hold. */
export interface BagShown {
  readonly id: PlaceId;
  readonly name: string;
  readonly number?: TagNumber;
  readonly within?: Named;
  readonly pieces: number;
  /** How many of them nobody has seen in it. */
  readonly presumed: number;
  /** When the first of what is in it came in; absent for an empty bag. */
  readonly since?: WireInstant;
  readonly members: readonly Named[];
  readonly events: readonly Named[];
}
/**
 * What is said beside a bag's age, with where it comes from: a maker's statement and no rule, so no verdict is made of it.
 * Source: facts.md 1.2, a maker's care page built on the 2020 trade user guide (S28).
 */
export const SIX_HOURS = {
  says: "clean within six hours of contamination",
  source: "a maker's care page, built on the 2020 trade user guide",
  caution:
    "A maker's statement, not a rule of any edition that was read. The department's procedure decides.",
} as const;
