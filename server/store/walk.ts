import { type RawBuilder, sql } from "kysely";
import type { Tx } from "./db.ts";

/** How many rows a batch has, and whether the next one is fetched while the caller works on the last. */
export interface Pace {
  readonly batch: number;
  /** Only where nothing else is asked in the same transaction meanwhile: a connection answers one question at a time. */
  readonly isAhead: boolean;
}

/**
 * Walks the rows of a query through a cursor of the database, so that memory stays the same however many there are.
 * Names of cursors must differ inside one transaction.
 */
export async function* walk<Row>(
  tx: Tx,
  name: string,
  query: RawBuilder<unknown>,
  { batch, isAhead }: Pace,
): AsyncGenerator<readonly Row[]> {
  // The whole answer is read, so the plan that is best for all of it is the best one.
  await sql`set local cursor_tuple_fraction = 1`.execute(tx);
  await sql`declare ${sql.ref(name)} no scroll cursor for ${query}`.execute(tx);
  const fetch = () => sql<Row>`fetch ${sql.lit(batch)} from ${sql.ref(name)}`.execute(tx);
  let ahead = isAhead ? fetch() : undefined;
  try {
    for (;;) {
      const { rows } = await (ahead ?? fetch());
      if (rows.length === 0) break;
      ahead = isAhead ? fetch() : undefined;
      yield rows;
    }
  } finally {
    await ahead?.catch(() => {});
    await sql`close ${sql.ref(name)}`.execute(tx).catch(() => {});
  }
}
