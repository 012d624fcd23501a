import { sql } from "kysely";
import type { Holder } from "../domain/custody/holder.ts";
import type { MemberId, PieceId, Uuid } from "../domain/ids.ts";
import type { Db, Tx } from "./db.ts";
import { holderFromRow } from "./piece-from-row.ts";

/** Tells whether a place is another one or lies in it, however deep. Places that name each other in a ring end too. */
export async function isWithin(db: Db, place: Uuid, around: Uuid): Promise<boolean> {
  const { rows } = await sql<{ found: boolean }>`with recursive up as (
      select ${place}::uuid as id union select p.within from up join place p on p.id = up.id
    ) select exists (select from up where id = ${around}) as found`.execute(db);
  return rows[0]?.found === true;
}

/** Tells whether one of some members is of a station. */
export async function isMemberOf(db: Db, members: readonly Uuid[], station: Uuid): Promise<boolean> {
  if (members.length === 0) return false;
  const { rows } = await sql<{ found: boolean }>`select exists (
    select from member where id = any(${members}::uuid[]) and station = ${station}) as found`.execute(db);
  return rows[0]?.found === true;
}

/** Reads who has a piece and whose use it belongs to. */
export async function whereabouts(
  db: Db,
  piece: PieceId,
): Promise<{ readonly holder: Holder; readonly assigned?: MemberId } | undefined> {
  const row = await db
    .selectFrom("piece")
    .select(["holder_kind", "holder", "member"])
    .where("id", "=", piece)
    .executeTakeFirst();
  if (!row) return undefined;
  return { holder: holderFromRow(row), ...(row.member ? { assigned: row.member as MemberId } : {}) };
}

/** Lists the pieces that a member has or whose use they belong to, by id; 500 at most, more than anybody has. */
export async function piecesOfMember(tx: Tx, member: MemberId): Promise<PieceId[]> {
  const { rows } = await sql<{ id: PieceId }>`select id from piece where member = ${member}
    union select id from piece where holder = ${member} order by id limit 500`.execute(tx);
  return rows.map(({ id }) => id);
}
