import { sql } from "kysely";
import { type Holder, holderId } from "../domain/custody/holder.ts";
import type { Tx } from "./db.ts";

const TABLES = { place: "place", member: "member", provider: "provider", outside: "outside" } as const;

/** Gives those of the holders that are not on record. In transit and whereabouts unknown always are. */
export async function unknownHolders(tx: Tx, holders: readonly Holder[]): Promise<Holder[]> {
  const unknown: Holder[] = [];
  for (const holder of holders) {
    const id = holderId(holder);
    if (!id || !("id" in holder)) continue;
    const found = await sql`select 1 from ${sql.table(TABLES[holder.kind])} where id = ${id}::uuid`.execute(
      tx,
    );
    if (found.rows.length === 0) unknown.push(holder);
  }
  return unknown;
}
