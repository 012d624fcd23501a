import { sql } from "kysely";
import type { Db } from "./db.ts";

/** Asks the database for a sign of life. */
export async function isDatabaseThere(db: Db): Promise<boolean> {
  try {
    await sql`select 1`.execute(db);
    return true;
  } catch {
    return false;
  }
}
