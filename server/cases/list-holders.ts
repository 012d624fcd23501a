import type { MemberId } from "../domain/ids.ts";
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

/** A page of members; `next` is the last one's id, where there are more. */
export interface MembersListed {
  readonly members: readonly MemberBrief[];
  readonly next?: MemberId;
}

/** Lists members as far as the viewer may see them: a member oneself, an officer those of the own station. */
export async function readMembers(
  db: Db,
  { role, member, station }: Viewer,
  page: { readonly after?: MemberId; readonly limit: number },
): Promise<MembersListed> {
  const only = {
    member: member ? { member } : undefined,
    "company officer": station ? { station } : undefined,
  };
  const narrowed = role === "member" || role === "company officer" ? only[role] : {};
  if (!narrowed) return { members: [] };
  const found = await listMembers(db, narrowed, { ...page, limit: page.limit + 1 });
  const members = found.slice(0, page.limit);
  const last = members.at(-1)?.id;
  return { members, ...(found.length > page.limit && last ? { next: last } : {}) };
}

/** Finds when a day begins in the department's time zone, in milliseconds. */
export async function startOfDay(db: Db, day: LocalDate): Promise<number> {
  const zone = await departmentZone(db);
  return (await dayBounds(db, day, zone)).start.getTime();
}
