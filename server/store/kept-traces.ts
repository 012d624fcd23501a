import { sql } from "kysely";
import type { AccountId, PieceId, Uuid } from "../domain/ids.ts";
import type { TraceFacts } from "../domain/tracing/kept-trace.ts";
import type { OutcomeWord } from "../domain/tracing/trace-view.ts";
import type { Db, Tx } from "./db.ts";

export interface KeptTraceRow {
  readonly id: Uuid;
  readonly name: string;
  readonly direction: "forward" | "backward";
  readonly is_drill: boolean;
  readonly read_position: string;
  readonly kept_at: Date;
  readonly kept_by: AccountId;
  readonly contacts: number;
  readonly facts: TraceFacts;
  readonly closed_at: Date | null;
  readonly version: number;
}

export async function findKeptTrace(tx: Db | Tx, id: Uuid): Promise<KeptTraceRow | undefined> {
  const { rows } = await sql<KeptTraceRow>`select * from trace where id = ${id}`.execute(tx);
  return rows[0];
}

export interface ListedTraceRow extends Omit<KeptTraceRow, "facts"> {
  readonly settled: number;
}

/** Lists kept traces, newest first, with how many of their contacts have an outcome. */
export async function listKeptTraces(tx: Db | Tx, limit: number): Promise<readonly ListedTraceRow[]> {
  const { rows } =
    await sql<ListedTraceRow>`select t.id, t.name, t.direction, t.is_drill, t.read_position, t.kept_at,
      t.kept_by, t.contacts, t.closed_at, t.version,
      (select count(*)::integer from trace_outcome o where o.trace = t.id) as settled
    from trace t order by t.kept_at desc, t.id desc limit ${limit}`.execute(tx);
  return rows;
}

export interface OutcomeRow {
  readonly piece: PieceId;
  readonly outcome: OutcomeWord;
  readonly outcome_at: Date;
  readonly outcome_by: AccountId;
  readonly evidence: string;
  readonly version: number;
  readonly reason: string | null;
  readonly has_reason: boolean;
}

/** Reads what became of a trace's contacts, with the reasons that stand. */
export async function outcomesOf(tx: Db | Tx, trace: Uuid): Promise<readonly OutcomeRow[]> {
  const { rows } =
    await sql<OutcomeRow>`select o.piece, o.outcome, o.outcome_at, o.outcome_by, o.evidence, o.version,
      t.body as reason, t.subject is not null as has_reason
    from trace_outcome o left join entry_text t on t.subject = o.trace and t.version = o.version and t.name = 'reason'
    where o.trace = ${trace}`.execute(tx);
  return rows;
}

/** Finds which of some pieces somebody saw after a moment of each: by a scan, or by what the record tells. */
export async function seenAfter(
  tx: Db | Tx,
  asked: readonly { readonly piece: PieceId; readonly at: Date }[],
): Promise<ReadonlyMap<PieceId, Date>> {
  if (asked.length === 0) return new Map();
  const { rows } = await sql<{ piece: PieceId; at: Date }>`select a.piece, greatest(case when p.seen_at > a.at
      then p.seen_at end, (select max(s.at) from scan s where s.subject = a.piece and s.at > a.at)) as at
    from unnest(${asked.map(({ piece }) => piece)}::uuid[], ${asked.map(({ at }) => at.toISOString())}::timestamptz[])
      as a(piece, at) join piece p on p.id = a.piece`.execute(tx);
  return new Map(rows.flatMap(({ piece, at }) => (at ? [[piece, at] as const] : [])));
}

export interface ChangeRow {
  readonly position: string;
  readonly at: Date;
  readonly recorded_at: Date;
  readonly command: string;
  readonly subject: Uuid;
}

/**
 * Lists what was recorded after a position that touches what a trace read: an entry of a piece, a place, a load or a
 * machine that it read, or of another piece that, by today's record, was where the trace looked while it looked.
 * What happens after the window, and what only says that a piece was looked at again, is no change.
 */
export async function changesSince(
  tx: Db | Tx,
  { position, read, from, to }: TraceFacts,
  limit: number,
): Promise<readonly ChangeRow[]> {
  const [begin, end] = [new Date(from), new Date(to)];
  const { rows } =
    await sql<ChangeRow>`select distinct on (a.position) a.position, a.at, a.recorded_at, a.command, e.subject
    from act a join entry e on e.act = a.id
    where a.position > ${position} and (
      (e.subject_kind = 'piece' and e.kind in ('PieceRegistered', 'PieceMoved', 'PieceFound', 'PieceCleaned', 'PieceRetired',
        'EntryCorrected', 'PieceMet', 'PieceNotMet') and a.at <= ${end} and (e.subject = any(${read.pieces}::uuid[])
          or exists (select from stay s where s.piece = e.subject and tstzrange(s.from_at, s.to_at, '[]')
            && tstzrange(${begin}, ${end}, '[]') and (s.holder = any(${read.holders}::uuid[])
              or s.load = any(${read.holders}::uuid[])))))
      or (e.subject_kind = 'piece' and e.kind = 'EntryCorrected' and e.subject = any(${read.pieces}::uuid[]))
      or (e.subject_kind in ('place', 'load') and e.subject = any(${read.holders}::uuid[]) and a.at <= ${end}))
    order by a.position limit ${limit}`.execute(tx);
  return rows;
}
