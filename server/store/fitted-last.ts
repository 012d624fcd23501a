import type { PieceId } from "../domain/ids.ts";
import type { Db } from "./db.ts";

/** Finds the layer of a kind that was fitted last in a shell and is not any more. */
export async function lastLayerOf(db: Db, shell: PieceId, layerKind: string): Promise<PieceId | undefined> {
  const row = await db
    .selectFrom("fitting")
    .select("layer")
    .where("shell", "=", shell)
    .where("layer_kind", "=", layerKind)
    .where("to_at", "is not", null)
    .orderBy("to_at", "desc")
    .limit(1)
    .executeTakeFirst();
  return row?.layer as PieceId | undefined;
}
