import { sql } from "kysely";
import type { MemberRow, PlaceRow } from "../../db/schema/database.ts";
import type { AccountId, MemberId, PieceId, PlaceId, Uuid } from "../domain/ids.ts";
import type { Named, WireInstant } from "../domain/piece-view.ts";
import type { Role } from "../domain/register/account.ts";
import type { PlaceSort } from "../domain/register/place.ts";
import type { ActionCard } from "../domain/register/policy.ts";
import type { AccountBrief, MemberBrief, PlaceBrief } from "../domain/scan-answer.ts";
import type { TagNumber } from "../domain/tags/tag-number.ts";
import type { LocalDate } from "../domain/time.ts";
import { readEntryBytes } from "../ledger/entry-bytes.ts";
import type { Db, Tx } from "./db.ts";

function placed(id: string | null, name: string | null): Named | undefined {
  return id && name ? { kind: "place", id: id as Uuid, name } : undefined;
}

/** Reads a place in a few words. */
export async function findPlace(db: Db | Tx, id: Uuid): Promise<PlaceBrief | undefined> {
  const row = await placesNamed(db).where("p.id", "=", id).executeTakeFirst();
  return row && placeFromRow(row);
}

/** Lists the places that are not closed, by name. */
export async function listPlaces(db: Db | Tx): Promise<PlaceBrief[]> {
  const rows = await placesNamed(db).where("p.closed", "=", false).orderBy("p.name").execute();
  return rows.map(placeFromRow);
}

function placesNamed(db: Db | Tx) {
  return db
    .selectFrom("place as p")
    .leftJoin("place as w", "w.id", "p.within")
    .selectAll("p")
    .select("w.name as within_name");
}

function placeFromRow(row: PlaceRow & { readonly within_name: string | null }): PlaceBrief {
  const within = placed(row.within, row.within_name);
  return {
    id: row.id as PlaceId,
    name: row.name,
    what: row.what as PlaceSort,
    carries: row.carries,
    ...(row.side ? { side: row.side } : {}),
    ...(within ? { within } : {}),
    closed: row.closed,
    ...(row.number ? { number: row.number as TagNumber } : {}),
  };
}

/** Reads a member in a few words; the name is left out where it was removed. */
export async function findMember(db: Db | Tx, id: Uuid): Promise<MemberBrief | undefined> {
  const row = await membersNamed(db).where("m.id", "=", id).executeTakeFirst();
  return row && memberFromRow(row);
}

/** Lists members by number, those who left last, a page at a time; of one station alone, where it is given. */
export async function listMembers(
  db: Db | Tx,
  only: { readonly station?: PlaceId; readonly member?: MemberId },
  page: { readonly after?: MemberId; readonly limit: number },
): Promise<MemberBrief[]> {
  const { after, limit } = page;
  const isAfter = sql<boolean>`(m.left_on is not null, m.number) >
    (select l.left_on is not null, l.number from member l where l.id = ${after ?? null})`;
  const rows = await membersNamed(db)
    .$if(only.station !== undefined, (query) => query.where("m.station", "=", only.station ?? null))
    .$if(only.member !== undefined, (query) => query.where("m.id", "=", only.member ?? ""))
    .$if(after !== undefined, (query) => query.where(isAfter))
    .orderBy(sql`m.left_on is not null`)
    .orderBy("m.number")
    .limit(limit)
    .execute();
  return rows.map(memberFromRow);
}

function membersNamed(db: Db | Tx) {
  return db
    .selectFrom("member as m")
    .leftJoin("person as q", "q.id", "m.id")
    .leftJoin("place as s", "s.id", "m.station")
    .select(["m.id", "m.number", "q.name", "m.station", "s.name as station_name", "m.shift", "m.left_on"]);
}

interface MemberNamedRow extends Pick<MemberRow, "id" | "number" | "station" | "shift" | "left_on"> {
  readonly name: string | null;
  readonly station_name: string | null;
}

function memberFromRow(row: MemberNamedRow): MemberBrief {
  const station = placed(row.station, row.station_name);
  return {
    id: row.id as MemberId,
    number: row.number,
    ...(row.name ? { name: row.name } : {}),
    ...(station ? { station } : {}),
    ...(row.shift ? { shift: row.shift } : {}),
    ...(row.left_on ? { leftOn: row.left_on as LocalDate } : {}),
  };
}

/** Reads the account behind a badge in a few words. */
export async function findAccount(db: Db | Tx, id: Uuid): Promise<AccountBrief | undefined> {
  const { rows } = await sql<{
    name: string | null;
    role: Role;
    closed: boolean;
    member: MemberId | null;
  }>`
    select coalesce(own.name, listed.name) as name, a.role, a.closed, a.member
    from account a left join person own on own.id = a.id left join person listed on listed.id = a.member
    where a.id = ${id}`.execute(db);
  const row = rows[0];
  if (!row) return undefined;
  const { role, closed, member } = row;
  const name = row.name ?? "name removed";
  return { id: id as AccountId, name, role, closed, ...(member ? { member } : {}) };
}

/** Reads which action a card number stands for. A card that was printed anew stands for none any more. */
export async function findAction(db: Db | Tx, number: TagNumber): Promise<ActionCard | undefined> {
  const { rows } = await sql<{ action: ActionCard }>`select c.key as action from setting s
    cross join lateral jsonb_each_text(s.value) c where s.name = 'action cards' and c.value = ${number}`.execute(
    db,
  );
  return rows[0]?.action;
}

/** A tag that opens no piece: never fixed to one, or spoiled. */
export interface LooseTag {
  readonly state: "reserved" | "printed" | "void";
  readonly since: WireInstant;
  readonly reason?: string;
  readonly meantFor?: PieceId;
}

/** Reads a tag that opens no piece, with when it came to its state and, of a void one, why. */
export async function findLooseTag(db: Db | Tx, tag: Uuid): Promise<LooseTag | undefined> {
  const row = await db
    .selectFrom("tag as t")
    .innerJoin("entry as e", (join) =>
      join.onRef("e.subject", "=", "t.id").onRef("e.version", "=", "t.version"),
    )
    .innerJoin("act as a", "a.id", "e.act")
    .select(["t.state", "t.meant_for", "a.at", "e.bytes"])
    .where("t.id", "=", tag)
    .executeTakeFirst();
  if (row?.state !== "reserved" && row?.state !== "printed" && row?.state !== "void") return undefined;
  const entry = readEntryBytes<"tag">(row.bytes);
  return {
    state: row.state,
    since: row.at.toISOString(),
    ...(entry.kind === "TagVoided" ? { reason: entry.reason } : {}),
    ...(row.meant_for ? { meantFor: row.meant_for as PieceId } : {}),
  };
}
