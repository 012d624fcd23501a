import type { BagAtCard, BagShown } from "../domain/custody/bag-views.ts";
import type { PieceId, PlaceId } from "../domain/ids.ts";
import type { TagNumber } from "../domain/tags/tag-number.ts";
import { contentsOf, listBags } from "../store/bags.ts";
import type { Db } from "../store/db.ts";
import { askNames } from "../store/names.ts";
import { readOnly } from "../store/snapshot.ts";
import { namesFor } from "./event-page.ts";
import type { Viewer } from "./viewer.ts";

/** Lists the open bags with how long each has waited, whose gear is in it and for which event it is on hold. */
export function readBags(db: Db, viewer: Viewer): Promise<BagShown[]> {
  return readOnly(db, async (tx) => {
    const rows = await listBags(tx);
    const said = rows.flatMap(({ from_members, events, within }) => [
      ...from_members,
      ...events,
      ...(within ? [within] : []),
    ]);
    const names = namesFor(await askNames(tx, said), viewer);
    const named = (ids: readonly string[]) => ids.flatMap((id) => names[id] ?? []);
    return rows.map((row) => {
      const [within] = named(row.within ? [row.within] : []);
      return {
        ...{ id: row.id, name: row.name, pieces: row.pieces, presumed: row.presumed },
        ...(row.number ? { number: row.number as TagNumber } : {}),
        ...(within ? { within } : {}),
        ...(row.since ? { since: row.since.toISOString() } : {}),
        members: named(row.from_members),
        events: named(row.events),
      };
    });
  });
}

/** Tells what is on record in a bag. */
export async function bagAtCard(db: Db, bag: PlaceId): Promise<BagAtCard> {
  const rows = await contentsOf(db, bag);
  const first = rows.map(({ from_at }) => from_at.getTime()).sort((a, b) => a - b)[0];
  return {
    pieces: rows.map(({ id, name, number, evidence }) => ({
      ...{ id: id as PieceId, name, isPresumed: evidence === "presumed" },
      ...(number ? { number: number as TagNumber } : {}),
    })),
    ...(first === undefined ? {} : { since: new Date(first).toISOString() }),
  };
}
