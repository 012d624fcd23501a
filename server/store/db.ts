import { type Kysely, type RawBuilder, sql, type Transaction } from "kysely";
import type { Database } from "../../db/schema/database.ts";

/** The department's database, for whoever opens a transaction on it. */
export type Db = Kysely<Database>;
/** A handle inside a transaction: what locks or writes several rows takes nothing else. */
export type Tx = Transaction<Database>;

/**
 * Ids for `= any(…)` of a prepared question. How many they are is kept from the planner: where it sees one, it holds a
 * plan for that one to be better than the plan that fits any number, and plans anew each time, which costs more than
 * running it.
 */
export function someIds(ids: readonly string[]): RawBuilder<readonly string[]> {
  return sql`(select ${ids}::uuid[])::uuid[]`;
}
