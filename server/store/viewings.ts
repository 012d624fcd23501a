import { sql } from "kysely";
import type { AccountId, MemberId, Uuid } from "../domain/ids.ts";
import type { ViewingShown } from "../domain/page-views.ts";
import type { Db } from "./db.ts";

/** Writes that somebody looked at a member's page. */
export async function writeViewing(db: Db, member: MemberId, by: AccountId, at: Date): Promise<void> {
  await db.insertInto("viewing").values({ member, by, at }).execute();
}

/** Lists who looked at a member's page, newest first. */
export async function lastViewings(db: Db, member: MemberId, most: number): Promise<ViewingShown[]> {
  const { rows } = await sql<{ at: Date; by: Uuid; name: string | null; role: string | null }>`
    select v.at, v.by, coalesce(own.name, listed.name) as name, a.role
    from viewing v left join account a on a.id = v.by left join person own on own.id = v.by
      left join person listed on listed.id = a.member
    where v.member = ${member} order by v.at desc, v.id desc limit ${most}`.execute(db);
  return rows.map(({ at, by, name, role }) => ({
    at: at.toISOString(),
    by: {
      kind: "account",
      id: by as AccountId,
      name: name ?? "name removed",
      ...(role ? { detail: role } : {}),
    },
  }));
}
