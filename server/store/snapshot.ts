import { sql } from "kysely";
import type { Db, Tx } from "./db.ts";

/** Two read-only transactions that see the database at one and the same moment. */
export interface Snapshot {
  /** Walks through a cursor here, whose next batch is on its way while the last is worked on. */
  readonly reading: Tx;
  /** Asks what else is needed here. */
  readonly aside: Tx;
}

/** Does work on a moment of the database that acts written meanwhile do not move. Takes two connections. */
export function atOneMoment<Result>(db: Db, work: (snapshot: Snapshot) => Promise<Result>): Promise<Result> {
  return readOnly(db, async (reading) => {
    const { rows } = await sql<{ name: string }>`select pg_export_snapshot() as name`.execute(reading);
    const name = rows[0]?.name ?? "";
    return readOnly(db, async (aside) => {
      await sql`set transaction snapshot ${sql.lit(name)}`.execute(aside);
      return work({ reading, aside });
    });
  });
}

/** Reads at one moment on one connection. */
export function readOnly<Result>(db: Db, work: (tx: Tx) => Promise<Result>): Promise<Result> {
  return db.transaction().setIsolationLevel("repeatable read").setAccessMode("read only").execute(work);
}
