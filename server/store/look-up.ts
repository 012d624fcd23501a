import { CompiledQuery } from "kysely";
import type { PieceId, Uuid } from "../domain/ids.ts";
import type { ActView, Named, Names, TagView, WireInstant } from "../domain/piece-view.ts";
import { STARTING_SETTINGS } from "../domain/register/policy.ts";
import type { TagNumber } from "../domain/tags/tag-number.ts";
import { actsFromRows, idsTold, type ToldRow } from "./acts-told.ts";
import { departmentZone } from "./days.ts";
import type { Db } from "./db.ts";
import {
  type GarmentFacts,
  type GarmentRow,
  garmentFactsFromRow,
  inOrder,
  isComparedByEye,
  type TagInJson,
} from "./garment-facts.ts";
import { lookUpSql } from "./look-up-sql.ts";
import { askNames, type NameRow, nameAccount, namesFromRows, upsFromRows } from "./names.ts";
import { nameOfBrief, type PieceInJson, wireInstant } from "./piece-from-row.ts";

/** What to look for; the first that is known wins. */
export interface Sought {
  readonly number?: TagNumber;
  readonly code?: string;
  readonly piece?: PieceId;
}

/** What a number, code or id names. `garment` is there when it opens a piece. */
export interface Found {
  readonly names: "tag" | "place" | "member" | "badge" | "action" | "foreign" | "piece";
  readonly subject: Uuid;
  readonly garment?: GarmentOnRecord;
}

/** A piece with the shell that it is in, or the layers in it, and all that is on record for showing and checking them. */
export interface GarmentOnRecord extends GarmentFacts {
  readonly piece: PieceId;
  /** The shell of the garment, or the piece itself. */
  readonly root: PieceId;
  readonly row: PieceInJson;
  readonly tags: readonly TagView[];
  readonly foreignCodes: readonly string[];
  readonly acts: readonly ActView[];
  readonly lastScan?: { readonly at: WireInstant; readonly by: Named; readonly device: string };
  readonly names: Names;
  /** For a place the one that it is within; for a member the station. */
  readonly ups: ReadonlyMap<string, Named>;
}

interface LookUpRow extends GarmentRow {
  readonly names_what: Found["names"];
  readonly subject: string;
  readonly piece: string | null;
  readonly root: string | null;
  readonly codes: readonly string[] | null;
  readonly told: readonly ToldRow[] | null;
  readonly seen: { readonly at: string; readonly by: string; readonly device: string } | null;
  readonly names: readonly NameRow[] | null;
}

/** Finds what is sought, in one round trip; a number that nobody knows may still be a bound foreign code, in two. */
export async function lookUp(db: Db, sought: Sought): Promise<Found | undefined> {
  for (const by of ["number", "code", "piece"] as const) {
    const value = sought[by];
    if (value === undefined) continue;
    const asked = CompiledQuery.raw(lookUpSql(by), [value]) as CompiledQuery<LookUpRow>;
    const row = (await db.executeQuery(asked)).rows[0];
    if (!row) continue;
    const found = { names: row.names_what, subject: row.subject as Uuid };
    if (row.root === null) return found;
    const zone = isComparedByEye(row) ? await departmentZone(db) : STARTING_SETTINGS["time zone"];
    const garment = garmentFromRow(row, zone);
    return { ...found, garment: { ...garment, names: await allNames(db, garment) } };
  }
  return undefined;
}

/** Adds the names that last acts and holds speak of and that the first question could not know of. */
async function allNames(db: Db, { acts, names, briefs }: GarmentOnRecord): Promise<Names> {
  const told = acts.flatMap(({ entries }) => entries.flatMap(({ entry }) => idsTold(entry)));
  const held = [...briefs.values()].flatMap(({ holds }) => holds.flatMap(idsTold));
  const missing = [...told, ...held].filter((id) => !(id in names));
  return missing.length === 0 ? names : { ...names, ...namesFromRows(await askNames(db, missing)) };
}

function garmentFromRow(row: LookUpRow, zone: string): GarmentOnRecord {
  const piece = row.piece as PieceId;
  const names = namesFromRows(row.names ?? []);
  const own = row.pieces?.find(({ id }) => id === piece);
  if (!own) throw new Error("The piece that was looked up is not among its own garment.");
  const facts = garmentFactsFromRow(row, names, zone);
  const { seen } = row;
  return {
    ...facts,
    piece,
    root: row.root as PieceId,
    row: own,
    tags: inOrder(own.tags ?? []).map(tagFromRow),
    foreignCodes: [...(row.codes ?? [])].sort(),
    acts: actsFromRows(row.told ?? [], names).slice(0, 5),
    ...(seen
      ? { lastScan: { at: wireInstant(seen.at), by: nameAccount(seen.by, names), device: seen.device } }
      : {}),
    names: {
      ...names,
      ...Object.fromEntries([...facts.briefs].map(([id, each]) => [id, nameOfBrief(each)])),
    },
    ups: upsFromRows(row.names ?? []),
  };
}

function tagFromRow(tag: TagInJson): TagView {
  return {
    number: tag.number as TagNumber,
    state: tag.state,
    ...(tag.position ? { position: tag.position } : {}),
    ...(tag.attached_at ? { attachedAt: wireInstant(tag.attached_at) } : {}),
    ...(tag.superseded_by ? { supersededBy: tag.superseded_by as TagNumber } : {}),
    ...(tag.ended_at ? { endedAt: wireInstant(tag.ended_at) } : {}),
  };
}
