import type { EventId, PieceId } from "../domain/ids.ts";
import type { Db, Tx } from "./db.ts";

/** Lists the pieces that were at an event, by id. */
export async function piecesOfEvent(db: Db | Tx, event: EventId): Promise<PieceId[]> {
  const rows = await db
    .selectFrom("piece_met")
    .select("piece")
    .where("event", "=", event)
    .orderBy("piece")
    .execute();
  return rows.map(({ piece }) => piece as PieceId);
}
