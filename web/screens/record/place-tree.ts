import type { PlaceBrief } from "../../../server/domain/scan-answer.ts";

/** Gives the places that are within one, directly or through others; a ring of places is walked once. */
export function insideOf(place: string, places: readonly PlaceBrief[]): readonly PlaceBrief[] {
  const found: PlaceBrief[] = [];
  const seen = new Set([place]);
  for (const outer of seen) {
    for (const inner of places) {
      if (inner.within?.id !== outer || seen.has(inner.id)) continue;
      seen.add(inner.id);
      found.push(inner);
    }
  }
  return found;
}

/** Orders places as they stand in each other: each followed by what is within it, by name, figures by value. */
export function inTreeOrder(places: readonly PlaceBrief[]): readonly PlaceBrief[] {
  const known = new Set<string>(places.map(({ id }) => id));
  const byName = (a: PlaceBrief, b: PlaceBrief) => a.name.localeCompare(b.name, "en", { numeric: true });
  const within = new Map<string, PlaceBrief[]>();
  for (const place of places) {
    const outer = place.within?.id && known.has(place.within.id) ? place.within.id : "";
    within.set(outer, [...(within.get(outer) ?? []), place]);
  }
  const ordered: PlaceBrief[] = [];
  const walk = (outer: string) => {
    for (const place of (within.get(outer) ?? []).sort(byName)) {
      ordered.push(place);
      walk(place.id);
    }
  };
  walk("");
  // A ring of places has no outermost one; its places still belong on the list.
  const missed = places.filter((place) => !ordered.includes(place));
  return [...ordered, ...missed.sort(byName)];
}
