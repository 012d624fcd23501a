import { sql } from "kysely";
import { POLICY_ID, STARTING_SETTINGS } from "../domain/register/policy.ts";
import type { LocalDate } from "../domain/time.ts";
import type { Db, Tx } from "./db.ts";

/** The last act that was recorded until the end of a day. */
export interface LastOfDay {
  readonly position: number;
  readonly hash: Buffer;
}

/** Reads the department's time zone, an IANA name. */
export async function departmentZone(db: Db | Tx): Promise<string> {
  const row = await db
    .selectFrom("setting")
    .select("value")
    .where("name", "=", "time zone")
    .where("policy", "=", POLICY_ID)
    .executeTakeFirst();
  return typeof row?.value === "string" ? row.value : STARTING_SETTINGS["time zone"];
}

/**
 * Finds the last act that was recorded before the end of a calendar day in a time zone. Times of recording never go
 * back along the chain, so that it is the one with the highest position. Undefined when there is none.
 */
export async function lastActOfDay(
  db: Db | Tx,
  day: LocalDate,
  zone: string,
): Promise<LastOfDay | undefined> {
  const { rows } = await sql<LastOfDay>`
    select position, hash from act where recorded_at < ((${day}::date + 1)::timestamp at time zone ${zone})
    order by recorded_at desc, position desc limit 1`.execute(db);
  return rows[0];
}
