import type { MemberBrief, PlaceBrief } from "../domain/scan-answer.ts";
import type { LocalDate } from "../domain/time.ts";
import { listMembers, listPlaces } from "../store/cards.ts";
import { departmentZone } from "../store/days.ts";
import type { Db } from "../store/db.ts";
import { dayBounds } from "../store/holder-pieces.ts";
import type { Viewer } from "./viewer.ts";

/** Lists the department's open places. */
export function readPlaces(db: Db): Promise<PlaceBrief[]> {
  return listPlaces(db);
}

/** Lists members as far as the viewer may see them: a member oneself, an officer those of the own station. */
export async function readMembers(db: Db, { role, member, station }: Viewer): Promise<MemberBrief[]> {
  if (role === "member") return member ? listMembers(db, { member }) : [];
  if (role === "company officer") return station ? listMembers(db, { station }) : [];
  return listMembers(db, {});
}

/** Finds when a day begins in the department's time zone, in milliseconds. */
export async function startOfDay(db: Db, day: LocalDate): Promise<number> {
  const zone = await departmentZone(db);
  return (await dayBounds(db, day, zone)).start.getTime();
}
