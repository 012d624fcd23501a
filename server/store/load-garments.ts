import { CompiledQuery } from "kysely";
import type { PieceId } from "../domain/ids.ts";
import type { Names } from "../domain/piece-view.ts";
import { STARTING_SETTINGS } from "../domain/register/policy.ts";
import { departmentZone } from "./days.ts";
import type { Db, Tx } from "./db.ts";
import {
  type GarmentFacts,
  type GarmentRow,
  garmentFacts,
  garmentFactsFromRow,
  isComparedByEye,
} from "./garment-facts.ts";
import { askNames, namesFromRows } from "./names.ts";
import { nameOfBrief } from "./piece-from-row.ts";

/** Garments of some pieces: each piece's shell with all its layers, or the piece alone. */
export interface LoadedGarments extends GarmentFacts {
  /** The shell, or the piece itself, of each piece asked for. */
  readonly roots: ReadonlyMap<PieceId, PieceId>;
  readonly names: Names;
}

const FACTS = garmentFacts(`w.scope ->> 'shell' in (select g.id::text from garment g)
  or w.scope ->> 'layer' in (select g.id::text from garment g)`);
const LOAD_GARMENTS = `/* prepared: load-garments */
with asked as materialized (
  select id, coalesce(fitted_in, id) as root from piece where id = any($1::uuid[])
), roots as materialized (select distinct root from asked
), garment as materialized (
  select p.*, null as layer_kind, null::timestamptz as fitted_at, null as fitted_how
  from roots join piece p on p.id = roots.root
  union all
  select p.*, f.layer_kind, f.from_at, f.evidence
  from roots join fitting f on f.shell = roots.root and f.to_at is null join piece p on p.id = f.layer
)
select (select json_object_agg(id, root) from asked) as roots, ${FACTS}`;

/** Reads garments as they are made up now, many at once. A piece that is not registered is left out. */
export async function loadGarments(db: Db | Tx, pieces: readonly PieceId[]): Promise<LoadedGarments> {
  const asked = CompiledQuery.raw(LOAD_GARMENTS, [pieces]) as CompiledQuery<
    GarmentRow & { readonly roots: Readonly<Record<PieceId, PieceId>> | null }
  >;
  const row = (await db.executeQuery(asked)).rows[0];
  if (!row) throw new Error("A question without a condition has no answer.");
  const said = (row.pieces ?? []).flatMap(({ holder }) => holder ?? []);
  const held = (row.pieces ?? [])
    .flatMap(({ holds }) => holds ?? [])
    .flatMap((hold) => [hold.placed_by, hold.with_piece, hold.event].filter((id) => id !== null));
  const named = namesFromRows(await askNames(db, [...said, ...held]));
  const zone = isComparedByEye(row) ? await departmentZone(db) : STARTING_SETTINGS["time zone"];
  const facts = garmentFactsFromRow(row, named, zone);
  const briefs = [...facts.briefs].map(([id, brief]) => [id, nameOfBrief(brief)]);
  return {
    ...facts,
    roots: new Map(Object.entries(row.roots ?? {}) as [PieceId, PieceId][]),
    names: { ...named, ...Object.fromEntries(briefs) },
  };
}
