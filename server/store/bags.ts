import { sql } from "kysely";
import type { MemberId, PieceId, PlaceId, Uuid } from "../domain/ids.ts";
import type { Db, Tx } from "./db.ts";

/** Lists the pieces that somebody or a place has now, by id; 500 at most, more than a bag or a member holds. */
export async function heldBy(db: Db | Tx, holder: Uuid): Promise<PieceId[]> {
  const { rows } = await sql<{ id: PieceId }>`
    select id from piece where holder = ${holder} order by id limit 500`.execute(db);
  return rows.map(({ id }) => id);
}

/** Tells whether a place is an open bag. */
export async function isBag(db: Db | Tx, place: PlaceId): Promise<boolean> {
  const row = await db
    .selectFrom("place")
    .select("what")
    .where("id", "=", place)
    .where("closed", "=", false)
    .executeTakeFirst();
  return row?.what === "bag";
}

/** Lists the names of all bags, closed ones too. */
export async function bagNames(db: Db | Tx): Promise<string[]> {
  const rows = await db.selectFrom("place").select("name").where("what", "=", "bag").execute();
  return rows.map(({ name }) => name);
}

/** Finds which set a member wore by the newest event of the three days before a moment. */
export async function wornLately(db: Db | Tx, member: MemberId, at: number): Promise<string | undefined> {
  const { rows } = await sql<{ set_name: string }>`
    select m.set_name from event_member m join contamination_event c on c.id = m.event
    where m.member = ${member} and m.set_name is not null and c.from_at <= ${new Date(at)}
      and c.to_at > ${new Date(at - 3 * 24 * 3_600_000)}
    order by c.from_at desc limit 1`.execute(db);
  return rows[0]?.set_name;
}

export interface BagRow {
  readonly id: PlaceId;
  readonly name: string;
  readonly number: string | null;
  readonly within: string | null;
  readonly pieces: number;
  readonly presumed: number;
  /** When the oldest of what is in it came in. */
  readonly since: Date | null;
  /** Who had what is in it, before. */
  readonly from_members: readonly MemberId[];
  readonly events: readonly Uuid[];
}

/** Lists the open bags: those that wait first, the oldest first, then the empty ones. */
export async function listBags(db: Db | Tx): Promise<BagRow[]> {
  const { rows } = await sql<BagRow>`
    select b.id, b.name, b.number, b.within, coalesce(x.pieces, 0) as pieces, coalesce(x.presumed, 0) as presumed,
      x.since, coalesce(x.from_members, '{}') as from_members, coalesce(x.events, '{}') as events
    from place b left join lateral (
      select count(*)::int as pieces, count(*) filter (where s.evidence = 'presumed')::int as presumed,
        min(s.from_at) as since,
        array_agg(distinct w.holder) filter (where w.holder_kind = 'member') as from_members,
        (select array_agg(distinct h.event) from piece i join hold h on h.piece = i.id
          where i.holder = b.id and h.event is not null and h.lifted_at is null) as events
      from piece p join stay s on s.piece = p.id and s.to_at is null
        left join stay w on w.piece = p.id and w.n = s.n - 1
      where p.holder = b.id) x on true
    where b.what = 'bag' and not b.closed
    order by x.since nulls last, length(b.name), b.name`.execute(db);
  return rows;
}

/** Lists what is on record in a bag, with how and since when. */
export async function contentsOf(
  db: Db | Tx,
  bag: PlaceId,
): Promise<
  readonly {
    readonly id: string;
    readonly name: string;
    readonly number: string | null;
    readonly evidence: string;
    readonly from_at: Date;
  }[]
> {
  const { rows } = await sql<{
    id: string;
    name: string;
    number: string | null;
    evidence: string;
    from_at: Date;
  }>`
    select p.id, coalesce(k.name, p.kind) as name, s.evidence, s.from_at, (select t.number from tag t
        where t.piece = p.id and t.state = 'attached' order by t.position, t.number limit 1) as number
    from piece p join stay s on s.piece = p.id and s.to_at is null left join kind k on k.code = p.kind
    where p.holder = ${bag} order by p.kind, p.id limit 500`.execute(db);
  return rows;
}
