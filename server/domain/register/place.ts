import type { PlaceId } from "../ids.ts";
import type { Versioned } from "../pieces/piece-entries.ts";
import type { TagNumber } from "../tags/tag-number.ts";

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
  | { readonly kind: "PlaceClosed" };

export interface PlaceState extends PlaceFacts {
  readonly id: PlaceId;
  readonly version: number;
  readonly number?: TagNumber;
  readonly closed: boolean;
}

/** Folds a place's entries; the last name, card and closing hold. Undefined before it is named. */
export function foldPlace(id: PlaceId, entries: readonly Versioned<PlaceEntry>[]): PlaceState | undefined {
  let facts: PlaceFacts | undefined;
  let number: TagNumber | undefined;
  let closed = false;
  for (const { entry } of entries) {
    switch (entry.kind) {
      case "PlaceNamed":
        facts = entry.place;
        closed = false;
        break;
      case "PlaceCarded":
        number = entry.number;
        break;
      case "PlaceClosed":
        closed = true;
        break;
      default:
        entry satisfies never;
    }
  }
  const version = entries.at(-1)?.version ?? 0;
  return facts && { id, version, ...facts, closed, ...(number ? { number } : {}) };
}
