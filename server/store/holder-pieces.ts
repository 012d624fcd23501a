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

/**
 * Lists the pieces that a holder had on a day as it is known now. A stay counts when it overlaps the day; one that began
 * and ended at one moment counts on the day of that moment.
 */
export async function piecesOnDay(
  tx: Tx,
  holder: Uuid,
  { start, end }: DayBounds,
  page: Page,
): Promise<StayedRow[]> {
  const isThen = sql`s.holder = ${holder} and s.from_at < ${end}
    and (s.to_at is null or s.to_at > ${start} or (s.to_at = s.from_at and s.from_at >= ${start}))`;
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

/**
 * Lists the pieces that may have been with a holder by what was known at a position: those with a stay there by today's
 * record, and those of which something was corrected since. No other piece can have lost such a stay.
 */
export async function perhapsThere(tx: Tx, holder: Uuid, position: number, page: Page): Promise<PieceId[]> {
  const { rows } = await sql<{ id: PieceId }>`select id from (
      select piece as id from stay where holder = ${holder}
      union
      select e.subject from entry e join act a on a.id = e.act
      where e.kind = 'EntryCorrected' and e.subject_kind = 'piece' and a.position > ${position}
    ) c where true ${following(sql`id`, page)}`.execute(tx);
  return rows.map(({ id }) => id);
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
