import { sql } from "kysely";
import type { AccountId, EventId, MemberId, Uuid } from "../domain/ids.ts";
import type { ViewingShown } from "../domain/page-views.ts";
import type { Db } from "./db.ts";

/** Writes that somebody looked at a member's page. */
export async function writeViewing(db: Db, member: MemberId, by: AccountId, at: Date): Promise<void> {
  await db.insertInto("viewing").values({ member, by, at }).execute();
}

/** One look at an event's list of members, however often the page is shown anew meanwhile. */
const ONE_LOOK_MS = 10 * 60_000;

/** Writes for each member on the list of an event that somebody looked at it. */
export async function writeEventViewing(
  db: Db,
  event: EventId,
  members: readonly MemberId[],
  by: AccountId,
  at: Date,
): Promise<void> {
  if (members.length === 0) return;
  await sql`insert into viewing (member, by, at, event)
    select m.id, ${by}, ${at}, ${event} from unnest(${members}::uuid[]) as m(id)
    where not exists (select from viewing v where v.member = m.id and v.by = ${by} and v.event = ${event}
      and v.at > ${new Date(at.getTime() - ONE_LOOK_MS)})`.execute(db);
}

/** Lists who looked at a member's page, or at an event's list with the member on it, newest first. */
export async function lastViewings(db: Db, member: MemberId, most: number): Promise<ViewingShown[]> {
  const { rows } = await sql<{
    at: Date;
    by: Uuid;
    name: string | null;
    role: string | null;
    event: EventId | null;
    event_name: string | null;
  }>`
    select v.at, v.by, coalesce(own.name, listed.name) as name, a.role,
      v.event, c.name as event_name
    from viewing v left join account a on a.id = v.by left join person own on own.id = v.by
      left join person listed on listed.id = a.member left join contamination_event c on c.id = v.event
    where v.member = ${member} order by v.at desc, v.id desc limit ${most}`.execute(db);
  return rows.map(({ at, by, name, role, event, event_name }) => ({
    at: at.toISOString(),
    ...(event ? { event: { kind: "contamination-event", id: event, name: event_name ?? "an event" } } : {}),
    by: {
      kind: "account",
      id: by as AccountId,
      name: name ?? "name removed",
      ...(role ? { detail: role } : {}),
    },
  }));
}
