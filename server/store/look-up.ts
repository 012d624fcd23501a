import { CompiledQuery } from "kysely";
import type { AcceptanceRow, FittingRow, HoldRow, KindRow, TagRow } from "../../db/schema/database.ts";
import type { AccountId, ModelId, PieceId, Uuid } from "../domain/ids.ts";
import type { AcceptedCombination } from "../domain/label-check/accepted-combination.ts";
import type { ComparedByEye } from "../domain/label-check/label-verdict.ts";
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
import type { StopOrSay } from "../domain/register/policy.ts";
import type { TagNumber } from "../domain/tags/tag-number.ts";
import type { LocalDate } from "../domain/time.ts";
import { actsFromRows, type ToldRow } from "./acts-told.ts";
import type { Db } from "./db.ts";
import { LOOK_UP } from "./look-up-sql.ts";
import { type NameRow, nameAccount, namesFromRows, upsFromRows } from "./names.ts";
import { briefFromRow, type InJson, kindFromRow, type PieceInJson, wireInstant } from "./piece-from-row.ts";

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
  readonly fittings: readonly InJson<FittingRow>[];
  readonly models: ReadonlyMap<ModelId, ModelOnRecord>;
  readonly facts: CheckFacts;
  readonly labelsNotRead: StopOrSay;
  readonly acts: readonly ActView[];
  readonly lastScan?: { readonly at: WireInstant; readonly by: Named; readonly device: string };
  readonly names: Names;
  /** For a place the one that it is within; for a member the station. */
  readonly ups: ReadonlyMap<string, Named>;
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
  readonly labels_not_read: StopOrSay | null;
  readonly pieces: readonly PieceInJson[] | null;
  readonly kinds: readonly InJson<KindRow>[] | null;
  readonly tags: readonly (InJson<TagRow> & { readonly ended_at_ms: string | null })[] | null;
  readonly holds: readonly InJson<HoldRow>[] | null;
  readonly fittings: readonly InJson<FittingRow>[] | null;
  readonly models: readonly ModelOnRecord[] | null;
  readonly takes: readonly TakesInJson[] | null;
  readonly words: readonly InJson<AcceptanceRow>[] | null;
  readonly eyes: readonly ComparedByEye[] | null;
  readonly codes: readonly string[] | null;
  readonly told: readonly ToldRow[] | null;
  readonly seen: { readonly at: string; readonly by: string; readonly device: string } | null;
  readonly names: readonly NameRow[] | null;
}
interface TakesInJson {
  readonly model: string;
  readonly layer_kind: string;
  readonly takes_model: string | null;
  readonly takes_code: string | null;
  readonly takes_name: string | null;
}

/** Finds what is sought, in one round trip. Undefined when the register knows none of it. */
export async function lookUp(db: Db, sought: Sought): Promise<Found | undefined> {
  const asked = [sought.number ?? null, sought.code ?? null, sought.piece ?? null];
  const { rows } = await db.executeQuery(CompiledQuery.raw(LOOK_UP, asked) as CompiledQuery<LookUpRow>);
  const row = rows[0];
  if (!row) return undefined;
  const found = { names: row.names_what, subject: row.subject as Uuid };
  return row.root === null ? found : { ...found, garment: garmentFromRow(row) };
}

function garmentFromRow(row: LookUpRow): GarmentOnRecord {
  const piece = row.piece as PieceId;
  const pieces = row.pieces ?? [];
  const names = namesFromRows(row.names ?? []);
  const kinds = new Map((row.kinds ?? []).map((kind) => [kind.code, kindFromRow(kind)]));
  const own = pieces.find(({ id }) => id === piece);
  if (!own) throw new Error("The piece that was looked up is not among its own garment.");
  const brief = (each: PieceInJson) => {
    const number = row.tags?.find((tag) => tag.piece === each.id && tag.state === "attached")?.number;
    const holds = (row.holds ?? []).filter((hold) => hold.piece === each.id).map(holdFromRow);
    return briefFromRow(each, { kinds, names, holds, ...(number ? { number: number as TagNumber } : {}) });
  };
  return {
    piece,
    root: row.root as PieceId,
    row: own,
    briefs: new Map(pieces.map((each) => [each.id as PieceId, brief(each)])),
    tags: (row.tags ?? []).filter((tag) => tag.piece === piece).map(tagFromRow),
    foreignCodes: row.codes ?? [],
    fittings: row.fittings ?? [],
    models: new Map((row.models ?? []).map((model) => [model.id as ModelId, model])),
    facts: factsFromRow(row),
    labelsNotRead: row.labels_not_read ?? "stop",
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
    names,
    ups: upsFromRows(row.names ?? []),
  };
}

function tagFromRow(tag: NonNullable<LookUpRow["tags"]>[number]): TagView {
  return {
    number: tag.number as TagNumber,
    state: tag.state,
    ...(tag.position ? { position: tag.position } : {}),
    ...(tag.attached_at ? { attachedAt: wireInstant(tag.attached_at) } : {}),
    ...(tag.superseded_by ? { supersededBy: tag.superseded_by as TagNumber } : {}),
    ...(tag.ended_at_ms ? { endedAt: new Date(Number(tag.ended_at_ms)).toISOString() } : {}),
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
    takes: (row.takes ?? []).map((takes) => ({
      shellModel: takes.model as ModelId,
      layerKind: takes.layer_kind,
      ...(takes.takes_model ? { takesModel: takes.takes_model as ModelId } : {}),
      ...(takes.takes_name ? { takesModelName: takes.takes_name } : {}),
      ...(takes.takes_code ? { takesLinerCode: takes.takes_code } : {}),
    })),
    acceptedCombinations: (row.words ?? []).map((word) => ({
      id: word.id as Uuid,
      saidBy: word.said_by,
      saidByName: word.said_by_name,
      saidOn: word.said_on as LocalDate,
      document: word.document,
      scope: word.scope as AcceptedCombination["scope"],
    })),
    comparedByEye: row.eyes ?? [],
  };
}
