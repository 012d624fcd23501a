import type { Kysely, Transaction } from "kysely";
import type { Database } from "../../db/schema/database.ts";

/** The department's database, for whoever opens a transaction on it. */
export type Db = Kysely<Database>;
/** A handle inside a transaction: what locks or writes several rows takes nothing else. */
export type Tx = Transaction<Database>;
