import { sql } from "kysely";
import type { DoubtWindow } from "../domain/cleaning/doubt-window.ts";
import type { LoadView } from "../domain/cleaning/machine-view.ts";
import type { LoadId, MachineId, PieceId } from "../domain/ids.ts";
import type { Instant } from "../domain/time.ts";
import type { Db } from "./db.ts";
import { askNames, nameHolder, namesFromRows } from "./names.ts";
import { holderFromRow, wireInstant } from "./piece-from-row.ts";

/** Reads the checks of a machine, newest first. */
export async function checksOf(
  db: Db,
  machine: MachineId,
): Promise<readonly { readonly at: Instant; readonly outcome: "in order" | "faulty" }[]> {
  const rows = await db
    .selectFrom("machine_check")
    .select(["checked_at", "outcome"])
    .where("machine", "=", machine)
    .orderBy("checked_at", "desc")
    .orderBy("version", "desc")
    .execute();
  return rows.map((row) => ({
    at: row.checked_at.getTime() as Instant,
    outcome: row.outcome as "in order" | "faulty",
  }));
}

interface LoadRowJson {
  readonly id: LoadId;
  readonly started_at: Date;
  readonly ended_at: Date | null;
  readonly outcome: "as programmed" | "aborted" | null;
  readonly programme: string | null;
  readonly how: string | null;
  readonly about_at: Date | null;
  readonly about_minutes: number | null;
  readonly despite: readonly string[];
  readonly pieces:
    | readonly {
        readonly id: PieceId;
        readonly kind: string;
        readonly number: string | null;
        readonly holder_kind: string;
        readonly holder: string | null;
        readonly washed_since: boolean;
      }[]
    | null;
}

/** Lists what a machine ran in a time, newest first, with the pieces and where they are now. A load counts when any of it lies within. */
export async function loadsOf(
  db: Db,
  machine: MachineId,
  { from, to }: DoubtWindow,
  limit: number,
): Promise<readonly LoadView[]> {
  const within = sql.join(
    [
      sql`l.machine = ${machine}`,
      ...(to === undefined ? [] : [sql`l.started_at <= ${new Date(to)}`]),
      ...(from === undefined ? [] : [sql`(l.ended_at is null or l.ended_at >= ${new Date(from)})`]),
    ],
    sql` and `,
  );
  const { rows } = await sql<LoadRowJson>`
    select l.id, l.started_at, l.ended_at, l.outcome, g.name as programme, l.how, l.about_at, l.about_minutes, l.despite,
      (select json_agg(json_build_object('id', p.id, 'kind', k.name, 'number', (select t.number from tag t
          where t.piece = p.id and t.state = 'attached' order by t.position, t.number limit 1),
          'holder_kind', p.holder_kind, 'holder', p.holder, 'washed_since', exists (
            select from stay later join load again on again.id = later.load
            where later.piece = p.id and again.how is not null and again.outcome = 'as programmed'
              and again.started_at > l.started_at)) order by k.name, p.id)
        from (select distinct piece from stay where load = l.id) s join piece p on p.id = s.piece
          left join kind k on k.code = p.kind) as pieces
    from load l left join programme g on g.id = l.programme
    where ${within} order by l.started_at desc, l.id limit ${limit}`.execute(db);
  const holders = rows.flatMap(({ pieces }) => (pieces ?? []).flatMap(({ holder }) => holder ?? []));
  const names = namesFromRows(await askNames(db, holders));
  return rows.map((row) => ({
    id: row.id,
    startedAt: wireInstant(row.started_at),
    ...(row.ended_at ? { endedAt: wireInstant(row.ended_at) } : {}),
    ...(row.outcome ? { outcome: row.outcome } : {}),
    ...(row.programme ? { programme: row.programme } : {}),
    ...(row.how ? { how: row.how } : {}),
    ...(row.about_at ? { about: { at: wireInstant(row.about_at), minutes: row.about_minutes ?? 0 } } : {}),
    despite: row.despite,
    pieces: (row.pieces ?? []).map(({ id, kind, number, washed_since: washedSince, ...holder }) => ({
      ...{ id, kind: kind ?? "piece", washedSince },
      ...(number ? { number } : {}),
      where: nameHolder(holderFromRow(holder), names),
    })),
  }));
}
