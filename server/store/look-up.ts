import { CompiledQuery } from "kysely";
import type { AcceptanceRow, ByEyeRow, HoldRow, TagRow } from "../../db/schema/database.ts";
import type { Evidence } from "../domain/evidence.ts";
import type { AccountId, ModelId, PieceId, Uuid } from "../domain/ids.ts";
import type { AcceptedCombination } from "../domain/label-check/accepted-combination.ts";
import type {
  ActView,
  CheckFacts,
  HoldView,
  Named,
  Names,
  PieceBrief,
  TagView,
  WireInstant,
} from "../domain/piece-view.ts";
import type { HoldKind } from "../domain/pieces/piece-entries.ts";
import { STARTING_SETTINGS, type StopOrSay } from "../domain/register/policy.ts";
import type { TagNumber } from "../domain/tags/tag-number.ts";
import type { LocalDate } from "../domain/time.ts";
import { actsFromRows, idsTold, type ToldRow } from "./acts-told.ts";
import type { Db } from "./db.ts";
import { dayIn } from "./load-rulebook.ts";
import { lookUpSql } from "./look-up-sql.ts";
import { askNames, type NameRow, nameAccount, namesFromRows, upsFromRows } from "./names.ts";
import {
  briefFromRow,
  type InJson,
  type KindInJson,
  nameOfBrief,
  type PieceInJson,
  wireInstant,
} from "./piece-from-row.ts";

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
export interface GarmentOnRecord {
  readonly piece: PieceId;
  /** The shell of the garment, or the piece itself. */
  readonly root: PieceId;
  readonly row: PieceInJson;
  readonly briefs: ReadonlyMap<PieceId, PieceBrief>;
  readonly tags: readonly TagView[];
  readonly foreignCodes: readonly string[];
  readonly fittings: readonly FittedNow[];
  readonly models: ReadonlyMap<ModelId, ModelOnRecord>;
  readonly facts: CheckFacts;
  readonly labelsNotRead: StopOrSay;
  readonly acts: readonly ActView[];
  readonly lastScan?: { readonly at: WireInstant; readonly by: Named; readonly device: string };
  readonly names: Names;
  /** For a place the one that it is within; for a member the station. */
  readonly ups: ReadonlyMap<string, Named>;
}

export interface FittedNow {
  readonly layer: PieceId;
  readonly layerKind: string;
  readonly since: WireInstant;
  readonly evidence: Evidence;
}
export interface ModelOnRecord {
  readonly id: string;
  readonly maker: string;
  readonly name: string;
  readonly layers: readonly string[];
}

interface LookUpRow {
  readonly names_what: Found["names"];
  readonly subject: string;
  readonly piece: string | null;
  readonly root: string | null;
  readonly pieces: readonly (PieceInJson & KindInJson & FittedInJson)[] | null;
  readonly tags: readonly TagInJson[] | null;
  readonly holds: readonly InJson<HoldRow>[] | null;
  readonly settings: { readonly "time zone"?: string; readonly "labels not read"?: StopOrSay } | null;
  readonly models: readonly (ModelOnRecord & { readonly takes: readonly TakesInJson[] | null })[] | null;
  readonly words: readonly InJson<AcceptanceRow>[] | null;
  readonly eyes: readonly InJson<ByEyeRow>[] | null;
  readonly codes: readonly string[] | null;
  readonly told: readonly ToldRow[] | null;
  readonly seen: { readonly at: string; readonly by: string; readonly device: string } | null;
  readonly names: readonly NameRow[] | null;
}
/** How a layer is fitted in the shell; all null for the shell itself. */
interface FittedInJson {
  readonly layer_kind: string | null;
  readonly fitted_at: string | null;
  readonly fitted_how: string | null;
}
interface TagInJson extends Pick<InJson<TagRow>, "piece" | "number" | "state" | "position" | "attached_at"> {
  readonly superseded_by: string | null;
  readonly ended_at: string | null;
}
interface TakesInJson {
  readonly layer_kind: string;
  readonly takes_model: string | null;
  readonly takes_code: string | null;
  readonly takes_name: string | null;
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
    const garment = garmentFromRow(row);
    return { ...found, garment: { ...garment, names: await namesWithActs(db, garment) } };
  }
  return undefined;
}

/** Adds the names that the last acts speak of and that the first question could not know of. */
async function namesWithActs(db: Db, { acts, names }: GarmentOnRecord): Promise<Names> {
  const told = acts.flatMap(({ entries }) => entries.flatMap(({ entry }) => idsTold(entry)));
  const missing = told.filter((id) => !(id in names));
  return missing.length === 0 ? names : { ...names, ...namesFromRows(await askNames(db, missing)) };
}

function garmentFromRow(row: LookUpRow): GarmentOnRecord {
  const piece = row.piece as PieceId;
  const pieces = row.pieces ?? [];
  const names = namesFromRows(row.names ?? []);
  const own = pieces.find(({ id }) => id === piece);
  if (!own) throw new Error("The piece that was looked up is not among its own garment.");
  const brief = (each: PieceInJson & KindInJson) => {
    const number = row.tags?.find((tag) => tag.piece === each.id && tag.state === "attached")?.number;
    const holds = (row.holds ?? []).filter((hold) => hold.piece === each.id).map(holdFromRow);
    return briefFromRow(each, { names, holds, ...(number ? { number: number as TagNumber } : {}) });
  };
  const briefs = pieces.map(brief);
  return {
    piece,
    root: row.root as PieceId,
    row: own,
    briefs: new Map(briefs.map((each) => [each.id, each])),
    tags: (row.tags ?? []).filter((tag) => tag.piece === piece).map(tagFromRow),
    foreignCodes: row.codes ?? [],
    fittings: pieces.flatMap(fittingFromRow),
    models: new Map((row.models ?? []).map((model) => [model.id as ModelId, model])),
    facts: factsFromRow(row),
    labelsNotRead: row.settings?.["labels not read"] ?? STARTING_SETTINGS["labels not read"],
    acts: actsFromRows(row.told ?? [], names).slice(0, 5),
    ...(row.seen
      ? {
          lastScan: {
            at: wireInstant(row.seen.at),
            by: nameAccount(row.seen.by, names),
            device: row.seen.device,
          },
        }
      : {}),
    names: { ...names, ...Object.fromEntries(briefs.map((each) => [each.id, nameOfBrief(each)])) },
    ups: upsFromRows(row.names ?? []),
  };
}

function fittingFromRow(row: PieceInJson & FittedInJson): FittedNow[] {
  const { layer_kind, fitted_at, fitted_how } = row;
  if (layer_kind === null || fitted_at === null) return [];
  const since = wireInstant(fitted_at);
  return [{ layer: row.id as PieceId, layerKind: layer_kind, since, evidence: fitted_how as Evidence }];
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

function holdFromRow(hold: InJson<HoldRow>): HoldView {
  return {
    version: hold.version,
    kind: hold.hold_kind as HoldKind,
    ...(hold.with_piece ? { with: hold.with_piece as PieceId } : {}),
    placedAt: wireInstant(hold.placed_at),
    placedBy: hold.placed_by as AccountId,
  };
}

function factsFromRow(row: LookUpRow): CheckFacts {
  return {
    takes: (row.models ?? []).flatMap((model) =>
      (model.takes ?? []).map((takes) => ({
        shellModel: model.id as ModelId,
        layerKind: takes.layer_kind,
        ...(takes.takes_model ? { takesModel: takes.takes_model as ModelId } : {}),
        ...(takes.takes_name ? { takesModelName: takes.takes_name } : {}),
        ...(takes.takes_code ? { takesLinerCode: takes.takes_code } : {}),
      })),
    ),
    acceptedCombinations: (row.words ?? []).map((word) => ({
      id: word.id as Uuid,
      saidBy: word.said_by,
      saidByName: word.said_by_name,
      saidOn: word.said_on as LocalDate,
      document: word.document,
      scope: word.scope as AcceptedCombination["scope"],
    })),
    comparedByEye: (row.eyes ?? []).map((eye) => ({
      outer: eye.shell as PieceId,
      inner: eye.layer as PieceId,
      by: eye.compared_by,
      on: dayIn(row.settings?.["time zone"] ?? STARTING_SETTINGS["time zone"], Date.parse(eye.compared_at)),
    })),
  };
}
