import { type RawBuilder, sql } from "kysely";
import { type Holder, holderId } from "../domain/custody/holder.ts";
import { someIds, type Tx } from "./db.ts";

const TABLES = ["place", "member", "provider", "outside"] as const;

/** Gives those of the holders that are not on record. In transit and whereabouts unknown always are. */
export async function unknownHolders(tx: Tx, holders: readonly Holder[]): Promise<Holder[]> {
  const named = holders.filter((holder) => holderId(holder) !== undefined);
  if (named.length === 0) return [];
  const asked = sql<{ id: string }>`/* prepared: known-holders */ ${knownAmong(named)}`;
  const { rows } = await asked.execute(tx);
  return strangersAmong(
    named,
    rows.map(({ id }) => id),
  );
}

/** Asks for the ids of those holders that are on record. */
export function knownAmong(holders: readonly Holder[]): RawBuilder<{ id: string }> {
  const wanted = TABLES.map((table) => {
    const ids = holders.flatMap((holder) => (holder.kind === table ? [holder.id] : []));
    return sql`select id from ${sql.table(table)} where id = any(${someIds(ids)})`;
  });
  return sql`${sql.join(wanted, sql` union all `)}`;
}

/** Gives the holders that have an id which is not among the known ones. */
export function strangersAmong(holders: readonly Holder[], known: readonly string[]): Holder[] {
  const onRecord = new Set(known);
  return holders.filter((holder) => {
    const id = holderId(holder);
    return id !== undefined && !onRecord.has(id);
  });
}
