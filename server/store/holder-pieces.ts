import { type RawBuilder, sql } from "kysely";
import type { PieceId, Uuid } from "../domain/ids.ts";
import type { LocalDate } from "../domain/time.ts";
import type { Db, Tx } from "./db.ts";
import { LISTED, type ListedRow } from "./listed-pieces.ts";

/** A calendar day in the department's time zone, as the instants that it lies between: [start, end). */
export interface DayBounds {
  readonly start: Date;
  readonly end: Date;
}

/** Finds when a day begins and ends in a time zone; a day on which the clocks change has 23 or 25 hours. */
export async function dayBounds(tx: Db | Tx, day: LocalDate, zone: string): Promise<DayBounds> {
  const { rows } = await sql<DayBounds>`select ${day}::timestamp at time zone ${zone} as start,
    (${day}::date + 1)::timestamp at time zone ${zone} as end`.execute(tx);
  const bounds = rows[0];
  if (!bounds) throw new Error("A question without a condition has no answer.");
  return bounds;
}

/** A piece with a stay of it at one holder. */
export interface StayedRow extends ListedRow {
  readonly from_at: Date;
  readonly to_at: Date | null;
  readonly evidence: string;
  /** When the coming and the going were recorded. */
  readonly coming: Date | null;
  readonly going: Date | null;
}

interface Page {
  readonly after: PieceId | undefined;
  readonly limit: number;
}

/** Lists the pieces that a holder has now, a page of pieces, by id; one more than the page when there are more. */
export async function piecesNow(tx: Tx, holder: Uuid, page: Page): Promise<StayedRow[]> {
  const ids = sql`select p.id from piece p where p.holder = ${holder} ${following(sql`p.id`, page)}`;
  return stayed(tx, ids, sql`s.holder = ${holder} and s.to_at is null`);
}

/** Lists the pieces that a holder had on a day as it is known now. */
export async function piecesOnDay(tx: Tx, holder: Uuid, day: DayBounds, page: Page): Promise<StayedRow[]> {
  const isThen = sql`s.holder = ${holder} and ${overlaps(day)}`;
  const ids = sql`select distinct s.piece as id from stay s where ${isThen} ${following(sql`s.piece`, page)}`;
  return stayed(tx, ids, isThen);
}

function following(column: RawBuilder<unknown>, { after, limit }: Page): RawBuilder<unknown> {
  return sql`${after ? sql`and ${column} > ${after}` : sql``} order by ${column} limit ${limit + 1}`;
}

async function stayed(tx: Tx, ids: RawBuilder<unknown>, isThen: RawBuilder<unknown>): Promise<StayedRow[]> {
  const recorded = (version: RawBuilder<unknown>) =>
    sql`(select a.recorded_at from entry e join act a on a.id = e.act where e.subject = s.piece and e.version = ${version})`;
  const { rows } = await sql<StayedRow>`with page as materialized (${ids})
    select ${LISTED}, s.from_at, s.to_at, s.evidence, ${recorded(sql`s.from_version`)} as coming,
      ${recorded(sql`s.to_version`)} as going
    from page join piece p on p.id = page.id left join kind k on k.code = p.kind
      join stay s on s.piece = p.id and ${isThen}
    order by p.id, s.n`.execute(tx);
  return rows;
}

/** A device's clock may run ahead of the server's by so much: acts further ahead are refused (server/cases/run-act.ts). */
const CLOCK_AHEAD_MS = 5 * 60_000;

/**
 * Lists the pieces that may have been with a holder by what was known at a position, a page by id: more than were, never
 * fewer. A piece that was there by the entries up to the position is there by today's record too, unless something was
 * recorded after the position that happened before it (a late record) or that corrects what it said. So: whoever was
 * there by today's record at the position's own time, or on the day where that is earlier; and those of the pieces with
 * a stay there of which something late was recorded, or something was corrected. A stay counts with the gap after it:
 * a finding elsewhere ends a stay long before it was made, and before it was made nobody knew that.
 */
export async function perhapsThere(
  tx: Tx,
  holder: Uuid,
  at: { readonly position: number; readonly recordedAt: Date },
  day: DayBounds | undefined,
  page: Page,
): Promise<PieceId[]> {
  const newest = new Date(at.recordedAt.getTime() + CLOCK_AHEAD_MS);
  const isOver = day !== undefined && day.end <= newest;
  const onDay = day ? sql`or (${overlaps(day)})` : sql``;
  const isThen = isOver
    ? overlaps(day)
    : sql`s.from_at <= ${newest} and (s.to_at is null or s.to_at > ${newest} ${onDay})`;
  const { rows } = await sql<{ id: PieceId }>`select id from (
      select s.piece as id from (
        select s.piece, s.from_at, case when g.piece is null then s.to_at else g.to_at end as to_at
        from stay s left join stay g on g.piece = s.piece and g.n = s.n + 1 and g.from_version = s.to_version
          and g.holder_kind = 'whereabouts unknown'
        where s.holder = ${holder}) s where ${isThen}
      union
      select e.subject from act a join entry e on e.act = a.id and e.subject_kind = 'piece'
      where a.position > ${at.position} and a.at <= ${isOver ? day.end : newest}
        and exists (select from stay s where s.piece = e.subject and s.holder = ${holder})
      union
      select c.subject from entry c join act a on a.id = c.act and a.position > ${at.position}
        join entry o on o.subject = c.subject
          and o.version = (convert_from(c.bytes, 'UTF8')::json ->> 'corrects')::integer
      where c.kind = 'EntryCorrected' and c.subject_kind = 'piece'
        and (position(${`"${holder}"`} in convert_from(o.bytes, 'UTF8')) > 0
          or exists (select from stay s where s.piece = c.subject and s.holder = ${holder}))
    ) perhaps where true ${following(sql`id`, page)}`.execute(tx);
  return rows.map(({ id }) => id);
}

/** A stay that overlaps a day; one that began and ended at one moment counts on the day of that moment. */
function overlaps({ start, end }: DayBounds): RawBuilder<unknown> {
  return sql`s.from_at < ${end}
    and (s.to_at is null or s.to_at > ${start} or (s.to_at = s.from_at and s.from_at >= ${start}))`;
}

/** Reads what lists show of pieces, by their ids. */
export async function listedByIds(tx: Tx, ids: readonly PieceId[]): Promise<ListedRow[]> {
  const { rows } = await sql<ListedRow>`select ${LISTED} from piece p left join kind k on k.code = p.kind
    where p.id = any(${ids}::uuid[]) order by p.id`.execute(tx);
  return rows;
}

/** Counts the pieces in each place that lies directly within another. */
export async function placesInside(
  tx: Tx,
  place: Uuid,
): Promise<readonly { readonly id: Uuid; readonly name: string; readonly pieces: number }[]> {
  const { rows } = await sql<{ id: Uuid; name: string; pieces: number }>`
    select c.id, c.name, (select count(*) from piece p where p.holder = c.id) as pieces
    from place c where c.within = ${place} and not c.closed order by c.name`.execute(tx);
  return rows;
}
