import type { LoadId, MachineId, PieceId } from "../domain/ids.ts";
import type { Tx } from "./db.ts";

/** Finds the load that runs in a machine as far as the record knows. */
export async function runningLoad(tx: Tx, machine: MachineId): Promise<LoadId | undefined> {
  const row = await tx
    .selectFrom("load")
    .select("id")
    .where("machine", "=", machine)
    .where("ended_at", "is", null)
    .executeTakeFirst();
  return row?.id as LoadId | undefined;
}

/** Lists the pieces that were put in with a load, whether they are still in it or not. */
export async function piecesWithLoad(tx: Tx, load: LoadId): Promise<PieceId[]> {
  const rows = await tx.selectFrom("stay").select("piece").distinct().where("load", "=", load).execute();
  return rows.map(({ piece }) => piece as PieceId);
}

/** Finds the open machine that stands at a place. */
export async function machineAt(tx: Tx, place: string): Promise<MachineId | undefined> {
  const row = await tx
    .selectFrom("machine")
    .select("id")
    .where("place", "=", place)
    .where("closed", "=", false)
    .executeTakeFirst();
  return row?.id as MachineId | undefined;
}
