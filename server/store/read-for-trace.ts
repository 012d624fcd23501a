import { sql } from "kysely";
import type { Evidence } from "../domain/evidence.ts";
import type { HowCleaned } from "../domain/pieces/piece-entries.ts";
import type { Carries } from "../domain/tracing/trace-view.ts";
import type { Db, Tx } from "./db.ts";

/** A piece, a place or a load with the time of it that is asked for, in milliseconds, both ends included. */
export interface SpanAsked {
  readonly id: string;
  readonly from: number;
  readonly to: number;
}

/** A stay with the load that it was in, as far as it was in one. Times in milliseconds. */
export interface TraceStayRow {
  readonly piece: string;
  readonly n: number;
  readonly holder_kind: string;
  readonly holder: string | null;
  readonly from_ms: number;
  readonly to_ms: number | null;
  readonly evidence: Evidence;
  readonly from_version: number;
  readonly load: string | null;
  readonly load_from: number | null;
  readonly load_to: number | null;
}

export interface TraceCleaningRow {
  readonly piece: string;
  readonly at_ms: number;
  readonly how: HowCleaned;
  readonly evidence: Evidence;
}

export interface TracePlaceRow {
  readonly id: string;
  readonly name: string;
  readonly what: string;
  readonly carries: Carries;
  readonly cleaned: readonly number[];
}

const MS = (column: string) => sql.raw(`round(extract(epoch from ${column}) * 1000)::float8`);
const STAY = sql`s.piece, s.n, s.holder_kind, s.holder, ${MS("s.from_at")} as from_ms, ${MS("s.to_at")} as to_ms,
  s.evidence, s.from_version, s.load, ${MS("l.started_at")} as load_from, ${MS("l.ended_at")} as load_to`;

function asked(spans: readonly SpanAsked[]) {
  const bound = (ms: number, otherwise: string) =>
    Number.isFinite(ms) ? new Date(ms).toISOString() : otherwise;
  return sql`unnest(${spans.map(({ id }) => id)}::uuid[], ${spans.map(({ from }) => bound(from, "-infinity"))}::timestamptz[],
    ${spans.map(({ to }) => bound(to, "infinity"))}::timestamptz[]) as a(id, from_at, to_at)`;
}

/** Reads what pieces did during their spans: stays, cleanings, and the places that they were at, in one question. */
export async function readPiecesForTrace(db: Db | Tx, spans: readonly SpanAsked[]) {
  const { rows } = await sql<{
    stays: TraceStayRow[] | null;
    cleanings: TraceCleaningRow[] | null;
    places: TracePlaceRow[] | null;
  }>`with asked as materialized (select * from ${asked(spans)}), s as materialized (
      select ${STAY} from asked a join stay s on s.piece = a.id and s.from_at <= a.to_at
        and (s.to_at is null or s.to_at >= a.from_at) left join load l on l.id = s.load)
    select (select json_agg(s) from s) as stays,
      (select json_agg(json_build_object('piece', c.piece, 'at_ms', ${MS("c.cleaned_at")}, 'how', c.how,
        'evidence', c.evidence)) from asked a join piece_cleaned c on c.piece = a.id
          and c.cleaned_at between a.from_at and a.to_at) as cleanings,
      (select json_agg(json_build_object('id', p.id, 'name', p.name, 'what', p.what,
        'carries', case when exists (select from machine m where m.place = p.id) then 'apart' else p.carries end, 'cleaned',
        (select coalesce(json_agg(${MS("w.cleaned_at")}), '[]') from place_cleaned w where w.place = p.id)))
        from place p where p.id in (select holder from s where holder_kind = 'place')) as places`.execute(db);
  const [found] = rows;
  return { stays: found?.stays ?? [], cleanings: found?.cleanings ?? [], places: found?.places ?? [] };
}

/** Reads who was at places, and in loads, during their spans, in one question. */
export async function readHoldersForTrace(
  db: Db | Tx,
  places: readonly SpanAsked[],
  loads: readonly SpanAsked[],
): Promise<readonly TraceStayRow[]> {
  const { rows } = await sql<TraceStayRow>`
    select ${STAY} from ${asked(places)} join stay s on s.holder = a.id and s.holder is not null
      and tstzrange(s.from_at, s.to_at, '[]') && tstzrange(a.from_at, a.to_at, '[]') left join load l on l.id = s.load
    union
    select ${STAY} from ${asked(loads)} join stay s on s.load = a.id join load l on l.id = s.load`.execute(
    db,
  );
  return rows;
}

/** What a piece is when a trace tells of it. */
export interface TracedPieceRow {
  readonly id: string;
  readonly garment: string;
  readonly station: string | null;
  readonly shift: string | null;
  readonly seen: Date | null;
}

/** Reads the garment of pieces, the station and shift of who has them, and when they were last seen by a scan or the record. */
export async function readTracedPieces(
  db: Db | Tx,
  pieces: readonly string[],
): Promise<readonly TracedPieceRow[]> {
  const { rows } = await sql<TracedPieceRow>`
    select p.id, coalesce(p.fitted_in, p.id) as garment, m.station, m.shift, greatest(p.seen_at,
      (select s.at from scan s where s.subject = p.id order by s.at desc limit 1)) as seen
    from piece p left join member m on p.holder_kind = 'member' and m.id = p.holder
    where p.id = any(${pieces}::uuid[])`.execute(db);
  return rows;
}

/** A piece with the moment at which a trace starts from it. */
export interface RootRow {
  readonly piece: string;
  readonly from_ms: number;
  readonly to_ms: number;
}

/** Finds the pieces that were with a holder during a time, each with the part of the time that it was there. */
export async function piecesAtHolder(db: Db | Tx, { id, from, to }: SpanAsked): Promise<readonly RootRow[]> {
  const { rows } = await sql<RootRow>`
    select s.piece, min(greatest(${MS("s.from_at")}, ${from}::float8)) as from_ms,
      max(least(coalesce(${MS("s.to_at")}, ${to}::float8), ${to}::float8)) as to_ms
    from ${asked([{ id, from, to }])} join stay s on s.holder = a.id and s.holder is not null
      and tstzrange(s.from_at, s.to_at, '[]') && tstzrange(a.from_at, a.to_at, '[]')
    group by s.piece order by s.piece`.execute(db);
  return rows;
}

/** Finds the pieces of loads: of one, or of all that a machine ran during a time. */
export async function piecesOfLoads(
  db: Db | Tx,
  which: { readonly load: string } | { readonly machine: string; readonly from: number; readonly to: number },
  now: number,
): Promise<readonly RootRow[]> {
  const loads =
    "load" in which
      ? sql`l.id = ${which.load}`
      : sql`l.machine = ${which.machine} and l.started_at <= ${new Date(which.to)}
          and coalesce(l.ended_at, 'infinity') >= ${new Date(which.from)}`;
  const { rows } = await sql<RootRow>`
    select s.piece, min(greatest(${MS("l.started_at")}, ${MS("s.from_at")})) as from_ms,
      max(least(coalesce(${MS("l.ended_at")}, ${now}::float8), coalesce(${MS("s.to_at")}, ${now}::float8))) as to_ms
    from load l join stay s on s.load = l.id where ${loads} group by s.piece order by s.piece`.execute(db);
  return rows;
}

/** Finds the pieces that met at an event, with the time at which they did. */
export async function piecesThatMet(db: Db | Tx, event: string): Promise<readonly RootRow[]> {
  const { rows } = await sql<RootRow>`select piece, ${MS("met_from")} as from_ms, ${MS("met_to")} as to_ms
    from piece_met where event = ${event} order by piece`.execute(db);
  return rows;
}

/** Finds the kinds of contaminant of an event. */
export async function kindsOfEvent(db: Db | Tx, event: string): Promise<readonly string[]> {
  const rows = await db.selectFrom("contamination_event").select("kinds").where("id", "=", event).execute();
  return rows[0]?.kinds ?? [];
}

/** Gives when pieces were first on record, in milliseconds: nothing of them can start earlier. */
export async function firstOnRecord(
  db: Db | Tx,
  pieces: readonly string[],
): Promise<ReadonlyMap<string, number>> {
  const { rows } = await sql<{ id: string; ms: number }>`select id, ${MS("registered_at")} as ms from piece
    where id = any(${pieces}::uuid[])`.execute(db);
  return new Map(rows.map(({ id, ms }) => [id, ms]));
}

/** Gives the position up to which the record is written. */
export async function positionNow(db: Db | Tx): Promise<number> {
  const { rows } = await sql<{ position: string | null }>`select max(position) as position from act`.execute(
    db,
  );
  return Number(rows[0]?.position ?? 0);
}
