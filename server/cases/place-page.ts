import type { PlaceId } from "../domain/ids.ts";
import type { PlacePage } from "../domain/page-views.ts";
import { findPlace } from "../store/cards.ts";
import type { Db } from "../store/db.ts";
import { placesInside } from "../store/holder-pieces.ts";
import { readOnly } from "../store/snapshot.ts";
import { type HolderQuestion, holderPage } from "./holder-page.ts";

export type NoPage = { readonly missing: "subject" | "position" };

/** Shows a place: what is there now, or was on a day, and what lies within it. */
export function readPlacePage(db: Db, id: PlaceId, asked: HolderQuestion): Promise<PlacePage | NoPage> {
  return readOnly(db, async (tx) => {
    const place = await findPlace(tx, id);
    if (!place) return { missing: "subject" };
    const page = await holderPage(tx, id, asked);
    if (!page) return { missing: "position" };
    const inside = (await placesInside(tx, id)).map(({ id: within, name, pieces }) => ({
      place: { kind: "place" as const, id: within, name },
      pieces,
    }));
    return { ...page, place, inside };
  });
}
