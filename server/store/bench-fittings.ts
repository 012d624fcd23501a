import { sql } from "kysely";
import type { MachineId, PieceId } from "../domain/ids.ts";
import type { Named, WireInstant } from "../domain/piece-view.ts";
import type { FittingOnRecord } from "../domain/reassemble/bench-list.ts";
import type { Db } from "./db.ts";
import { askNames, nameHolder, namesFromRows } from "./names.ts";
import { holderFromRow, wireInstant } from "./piece-from-row.ts";

interface FittingFound {
  readonly layer: PieceId;
  readonly layer_kind: string;
  readonly shell: PieceId;
  readonly from_at: Date;
  readonly to_at: Date | null;
  readonly opened_by: string;
}

/** As far back as a home is looked for: the last one may be a wrong one, and the one before it too. */
const LATEST = 3;

/**
 * Reads the latest fittings of layers, and of shells for each kind of layer, with whether they were installed or found.
 * Two index scans a piece, whatever the size of the ledger.
 */
export async function latestFittings(db: Db, pieces: readonly PieceId[]): Promise<FittingOnRecord[]> {
  if (pieces.length === 0) return [];
  const { rows } = await sql<FittingFound>`/* prepared: latest-fittings */
    with asked as (select unnest(${pieces}::uuid[]) as id), near as (
      select f.* from asked cross join lateral (select * from fitting where layer = asked.id
        order by from_at desc, n desc limit ${LATEST}) f
      union
      select f.layer, f.n, f.layer_kind, f.shell, f.from_at, f.to_at, f.verdict, f.evidence, f.from_version, f.to_version
      from asked cross join lateral (
        select x.*, row_number() over (partition by x.layer_kind order by x.from_at desc, x.layer) as place
        from fitting x where x.shell = asked.id) f
      where f.place <= ${LATEST}
    )
    select near.layer, near.layer_kind, near.shell, near.from_at, near.to_at, e.kind as opened_by
    from near join entry e on e.subject = near.layer and e.version = near.from_version
    order by near.from_at desc, near.layer`.execute(db);
  return rows.map((row) => ({
    layer: row.layer,
    layerKind: row.layer_kind,
    shell: row.shell,
    from: wireInstant(row.from_at),
    ...(row.to_at ? { to: wireInstant(row.to_at) } : {}),
    isFound: row.opened_by === "LayerFoundFitted",
  }));
}

/** Reads the last scan of each piece that was ever scanned, look-ups included. */
export async function lastScans(
  db: Db,
  pieces: readonly PieceId[],
): Promise<ReadonlyMap<PieceId, { readonly at: WireInstant; readonly by: Named; readonly device: string }>> {
  if (pieces.length === 0) return new Map();
  const { rows } = await sql<{ subject: PieceId; at: Date; by: string; device: string }>`
    select s.subject, s.at, s.by, s.device from unnest(${pieces}::uuid[]) as asked(id)
    cross join lateral (select * from scan where subject = asked.id order by at desc limit 1) s`.execute(db);
  const names = namesFromRows(await askNames(db, [...new Set(rows.map(({ by }) => by))]));
  const unnamed: Named = { kind: "account", name: "not on record" };
  return new Map(
    rows.map(({ subject, at, by, device }) => [
      subject,
      { at: wireInstant(at), by: names[by] ?? unnamed, device },
    ]),
  );
}

/** Reads the pieces of the load that a machine ran last; none before its first. */
export async function piecesOfLastLoad(db: Db, machine: MachineId): Promise<PieceId[]> {
  const { rows } = await sql<{ piece: PieceId }>`select distinct s.piece from stay s
    where s.load = (select id from load where machine = ${machine} order by started_at desc, id limit 1)
    order by s.piece`.execute(db);
  return rows.map(({ piece }) => piece);
}

/** Reads where the pieces are now that were in the last load of each of these. */
export async function loadMates(
  db: Db,
  pieces: readonly PieceId[],
): Promise<ReadonlyMap<PieceId, readonly Named[]>> {
  if (pieces.length === 0) return new Map();
  const { rows } = await sql<{ id: PieceId; holder_kind: string; holder: string | null }>`
    select distinct asked.id, mate.holder_kind, mate.holder from unnest(${pieces}::uuid[]) as asked(id)
    cross join lateral (select load from stay where piece = asked.id and load is not null
      order by from_at desc, n desc limit 1) last
    join stay s on s.load = last.load and s.piece <> asked.id
    join piece mate on mate.id = s.piece order by asked.id, mate.holder_kind, mate.holder`.execute(db);
  const names = namesFromRows(
    await askNames(
      db,
      rows.flatMap(({ holder }) => holder ?? []),
    ),
  );
  const mates = new Map<PieceId, Named[]>();
  for (const row of rows) {
    mates.set(row.id, [...(mates.get(row.id) ?? []), nameHolder(holderFromRow(row), names)]);
  }
  return mates;
}
