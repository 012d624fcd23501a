import { sql } from "kysely";
import type { MachineSort, ProgrammeFacts } from "../domain/cleaning/machine.ts";
import type { LoadId, MachineId, PieceId, PlaceId, ProgrammeId } from "../domain/ids.ts";
import type { HowCleaned } from "../domain/pieces/piece-entries.ts";
import type { Db, Tx } from "./db.ts";

/** A machine's row with its programmes that are not given up, what runs in it and its last check. */
export interface MachineOnRecord {
  readonly id: MachineId;
  readonly name: string;
  readonly what: MachineSort;
  readonly place: PlaceId;
  readonly placeName: string;
  readonly drumDiameterMm?: number;
  readonly mostGarments?: number;
  readonly programmes: readonly (ProgrammeFacts & { readonly id: ProgrammeId; readonly usual: boolean })[];
  readonly running?: { readonly load: LoadId; readonly since: Date; readonly pieces: number };
  readonly lastCheck?: { readonly at: Date; readonly outcome: "in order" | "faulty" };
}

interface MachineJson {
  readonly id: MachineId;
  readonly name: string;
  readonly what: MachineSort;
  readonly place: PlaceId;
  readonly place_name: string;
  readonly drum_diameter_mm: number | null;
  readonly most_garments: number | null;
  readonly programmes: readonly ProgrammeJson[] | null;
  readonly running: { readonly load: LoadId; readonly since: string; readonly pieces: number } | null;
  readonly last_check: { readonly at: string; readonly outcome: "in order" | "faulty" } | null;
}
interface ProgrammeJson {
  readonly id: ProgrammeId;
  readonly name: string;
  readonly how: HowCleaned | null;
  readonly temperature: number | null;
  readonly temperature_scale: "F" | "C" | null;
  readonly detergent_ph_tenths: number | null;
  readonly extraction_rpm: number | null;
  readonly minutes: number | null;
  readonly usual: boolean;
}

/** Reads open machines by name: all of them, the one that stands at a place, or one by its id. */
export async function readMachines(
  db: Db | Tx,
  only: { readonly place?: PlaceId; readonly machine?: MachineId } = {},
): Promise<readonly MachineOnRecord[]> {
  const wanted = only.place
    ? sql`m.place = ${only.place}`
    : only.machine
      ? sql`m.id = ${only.machine}`
      : sql`true`;
  const { rows } = await sql<MachineJson>`
    select m.id, m.name, m.what, m.place, p.name as place_name, m.drum_diameter_mm, m.most_garments,
      (select json_agg(g order by g.usual desc, g.name) from programme g where g.machine = m.id and not g.ended)
        as programmes,
      (select json_build_object('load', l.id, 'since', l.started_at, 'pieces',
        (select count(*) from stay s where s.load = l.id and s.to_at is null))
        from load l where l.machine = m.id and l.ended_at is null) as running,
      (select json_build_object('at', c.checked_at, 'outcome', c.outcome) from machine_check c where c.machine = m.id
        order by c.checked_at desc, c.version desc limit 1) as last_check
    from machine m join place p on p.id = m.place where not m.closed and ${wanted} order by lower(m.name)`.execute(
    db,
  );
  return rows.map(machineFromJson);
}

function machineFromJson(row: MachineJson): MachineOnRecord {
  const { running, last_check: check } = row;
  return {
    ...{ id: row.id, name: row.name, what: row.what, place: row.place, placeName: row.place_name },
    ...(row.drum_diameter_mm === null ? {} : { drumDiameterMm: row.drum_diameter_mm }),
    ...(row.most_garments === null ? {} : { mostGarments: row.most_garments }),
    programmes: (row.programmes ?? []).map(programmeFromJson),
    ...(running ? { running: { ...running, since: new Date(running.since) } } : {}),
    ...(check ? { lastCheck: { at: new Date(check.at), outcome: check.outcome } } : {}),
  };
}

function programmeFromJson(row: ProgrammeJson): MachineOnRecord["programmes"][number] {
  const { temperature, temperature_scale: scale } = row;
  return {
    ...{ id: row.id, name: row.name, usual: row.usual },
    ...(row.how ? { how: row.how } : {}),
    ...(temperature !== null && scale ? { temperature: { degrees: temperature, scale } } : {}),
    ...(row.detergent_ph_tenths === null ? {} : { detergentPhTenths: row.detergent_ph_tenths }),
    ...(row.extraction_rpm === null ? {} : { extractionRpm: row.extraction_rpm }),
    ...(row.minutes === null ? {} : { minutes: row.minutes }),
  };
}

/** A load that was washed and still lies where it was. */
export interface WaitingLoad {
  readonly load: LoadId;
  readonly from: string;
  readonly endedAt: Date;
  readonly pieces: readonly PieceId[];
}

/** How long a washed load may wait for the dryer before its card proposes it no more. Own judgement: a shift. */
const WAITS = "12 hours";

/** Finds the load that was washed last, elsewhere than in this machine, of which pieces still lie there. */
export async function waitingLoad(
  db: Db,
  machine: MachineId,
  nowMs: number,
): Promise<WaitingLoad | undefined> {
  const { rows } = await sql<{ load: LoadId; from: string; ended_at: Date; pieces: PieceId[] }>`
    select l.id as load, m.name as "from", l.ended_at, s.pieces
    from load l join machine m on m.id = l.machine
      cross join lateral (select array_agg(piece order by from_at, piece) as pieces from stay
        where load = l.id and to_at is null) s
    where l.ended_at > ${new Date(nowMs)}::timestamptz - ${WAITS}::interval and l.how is not null
      and l.outcome = 'as programmed' and l.machine <> ${machine} and s.pieces is not null
    order by l.ended_at desc, l.id limit 1`.execute(db);
  const row = rows[0];
  return row && { load: row.load, from: row.from, endedAt: row.ended_at, pieces: row.pieces };
}
