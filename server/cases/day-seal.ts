import type { LocalDate } from "../domain/time.ts";
import { departmentZone, lastActOfDay } from "../store/days.ts";
import type { Db } from "../store/db.ts";

/** What seals a day: the last act recorded until its end, with the hash that binds all acts before it. */
export interface DaySeal {
  readonly day: LocalDate;
  /** The time zone in which the day began and ended, an IANA name. */
  readonly zone: string;
  readonly position: number;
  /** 64 hexadecimal digits. */
  readonly hash: string;
}

/**
 * Gives the seal of a calendar day in the department's time zone: the hash that is printed on the day sheet and in
 * every export. While the day lasts it moves with each act. Undefined when nothing was recorded until then.
 */
export async function daySeal(db: Db, day: LocalDate): Promise<DaySeal | undefined> {
  const zone = await departmentZone(db);
  const last = await lastActOfDay(db, day, zone);
  return last && { day, zone, position: last.position, hash: last.hash.toString("hex") };
}
