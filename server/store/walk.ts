import { type RawBuilder, sql } from "kysely";
import type { Tx } from "./db.ts";

/**
 * Walks the rows of a query through a cursor of the database, so that memory stays the same however many there are.
 * The next batch is fetched while the caller works on this one. Names of cursors must differ inside one transaction.
 */
export async function* walk<Row>(
  tx: Tx,
  name: string,
  query: RawBuilder<unknown>,
  batch: number,
): AsyncGenerator<readonly Row[]> {
  // The whole answer is read, so the plan that is best for all of it is the best one.
  await sql`set local cursor_tuple_fraction = 1`.execute(tx);
  await sql`declare ${sql.ref(name)} no scroll cursor for ${query}`.execute(tx);
  const fetch = () => sql<Row>`fetch ${sql.lit(batch)} from ${sql.ref(name)}`.execute(tx);
  let next = fetch();
  try {
    for (;;) {
      const { rows } = await next;
      if (rows.length === 0) break;
      next = fetch();
      yield rows;
    }
  } finally {
    await next.catch(() => {});
    await sql`close ${sql.ref(name)}`.execute(tx).catch(() => {});
  }
}
