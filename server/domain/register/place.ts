import type { Evidence } from "../evidence.ts";
import type { PlaceId } from "../ids.ts";
import type { Versioned } from "../pieces/piece-entries.ts";
import type { TagNumber } from "../tags/tag-number.ts";
import type { Instant } from "../time.ts";

/** How a place passes soil on: all inside touch, spreads among what lies there, or each piece apart. */
export type Carries = "closed" | "shared" | "apart";

export const PLACE_SORTS = [
  "station",
  "cage",
  "rack",
  "shelf",
  "locker",
  "bench",
  "bin",
  "bag",
  "vehicle",
  "isolation",
  "drying",
  "washer",
  "dryer",
  "other",
] as const;
export type PlaceSort = (typeof PLACE_SORTS)[number];

const USUAL: Readonly<Partial<Record<PlaceSort, Carries>>> = {
  ...{ bag: "closed", bin: "closed", washer: "closed", dryer: "closed" },
  ...{ locker: "apart" },
};

/**
 * Gives how a sort of place usually passes soil on: closed where all that is inside touches, apart where each piece
 * has a place of its own, else shared. A proposal that a person may change. Own judgement.
 */
export function usualCarries(what: PlaceSort): Carries {
  return USUAL[what] ?? "shared";
}

export interface PlaceFacts {
  readonly name: string;
  readonly what: PlaceSort;
  readonly carries: Carries;
  readonly side?: "soiled" | "clean";
  readonly within?: PlaceId;
}
export type PlaceEntry =
  | { readonly kind: "PlaceNamed"; readonly place: PlaceFacts }
  | { readonly kind: "PlaceCarded"; readonly number: TagNumber }
  /** The place itself was cleaned, such as a bench that was wiped: what lay there before does not reach what comes after. */
  | { readonly kind: "PlaceWiped"; readonly at: Instant; readonly evidence: Evidence }
  | { readonly kind: "PlaceClosed" };

export interface PlaceState extends PlaceFacts {
  readonly id: PlaceId;
  readonly version: number;
  readonly number?: TagNumber;
  readonly closed: boolean;
  /** When it was cleaned, in the order of time. */
  readonly cleanings: readonly Instant[];
}

/** Folds a place's entries; the last name, card and closing hold. Undefined before it is named. */
export function foldPlace(id: PlaceId, entries: readonly Versioned<PlaceEntry>[]): PlaceState | undefined {
  let facts: PlaceFacts | undefined;
  let number: TagNumber | undefined;
  let closed = false;
  const cleanings: Instant[] = [];
  for (const { entry } of entries) {
    switch (entry.kind) {
      case "PlaceNamed":
        facts = entry.place;
        closed = false;
        break;
      case "PlaceCarded":
        number = entry.number;
        break;
      case "PlaceWiped":
        cleanings.push(entry.at);
        break;
      case "PlaceClosed":
        closed = true;
        break;
      default:
        entry satisfies never;
    }
  }
  const version = entries.at(-1)?.version ?? 0;
  cleanings.sort((a, b) => a - b);
  return facts && { id, version, ...facts, closed, cleanings, ...(number ? { number } : {}) };
}
