import { sql } from "kysely";
import { type Holder, holderId } from "../domain/custody/holder.ts";
import type { Tx } from "./db.ts";

const TABLES = ["place", "member", "provider", "outside"] as const;

/** Gives those of the holders that are not on record. In transit and whereabouts unknown always are. */
export async function unknownHolders(tx: Tx, holders: readonly Holder[]): Promise<Holder[]> {
  const named = holders.filter((holder) => holderId(holder) !== undefined);
  if (named.length === 0) return [];
  const wanted = TABLES.map((table) => {
    const ids = named.flatMap((holder) => (holder.kind === table ? [holder.id] : []));
    return sql`select id from ${sql.table(table)} where id = any(${ids}::uuid[])`;
  });
  const found = await sql<{
    id: string;
  }>`/* prepared: known-holders */ ${sql.join(wanted, sql` union all `)}`.execute(tx);
  const known = new Set(found.rows.map(({ id }) => id));
  return named.filter((holder) => !known.has(holderId(holder) ?? ""));
}
