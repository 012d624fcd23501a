import type { AcceptanceRow, ByEyeRow, HoldRow, TagRow } from "../../db/schema/database.ts";
import type { Evidence } from "../domain/evidence.ts";
import type { AccountId, EventId, ModelId, PieceId, Uuid } from "../domain/ids.ts";
import type { AcceptedCombination } from "../domain/label-check/accepted-combination.ts";
import type { ComparedByEye } from "../domain/label-check/label-verdict.ts";
import type { CheckFacts, HoldView, Names, PieceBrief, WireInstant } from "../domain/piece-view.ts";
import type { HoldKind } from "../domain/pieces/piece-entries.ts";
import { STARTING_SETTINGS, type StopOrSay } from "../domain/register/policy.ts";
import type { TagNumber } from "../domain/tags/tag-number.ts";
import type { LocalDate } from "../domain/time.ts";
import { dayIn } from "./load-rulebook.ts";
import {
  briefFromRow,
  type InJson,
  type KindInJson,
  type PieceInJson,
  wireInstant,
} from "./piece-from-row.ts";

/** Garments as they are made up now, with all that a label check and the question of readiness rest on. */
export interface GarmentFacts {
  readonly briefs: ReadonlyMap<PieceId, PieceBrief>;
  readonly fittings: readonly FittedNow[];
  readonly models: ReadonlyMap<ModelId, ModelOnRecord>;
  readonly facts: CheckFacts;
  readonly labelsNotRead: StopOrSay;
}

export interface FittedNow {
  readonly shell: PieceId;
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

/** What a query answers of garments, as garmentFacts asks it. */
export interface GarmentRow {
  readonly pieces: readonly PieceOfGarment[] | null;
  readonly labels_not_read: StopOrSay | null;
  readonly words: readonly InJson<AcceptanceRow>[] | null;
}
/** A piece with what hangs on it, and how it is fitted: all null for what is not fitted. */
export interface PieceOfGarment extends PieceInJson, KindInJson {
  readonly layer_kind: string | null;
  readonly fitted_at: string | null;
  readonly fitted_how: string | null;
  readonly tags: readonly TagInJson[] | null;
  readonly holds: readonly InJson<HoldRow>[] | null;
  readonly eyes: readonly InJson<ByEyeRow>[] | null;
  readonly model_row: (ModelOnRecord & { readonly takes: readonly TakesInJson[] | null }) | null;
}
export interface TagInJson extends Pick<InJson<TagRow>, "number" | "state" | "position" | "attached_at"> {
  readonly superseded_by: string | null;
  readonly ended_at: string | null;
}
interface TakesInJson {
  readonly n: number;
  readonly layer_kind: string;
  readonly takes_model: string | null;
  readonly takes_code: string | null;
  readonly takes_name: string | null;
}

/**
 * What a query asks of the pieces in `garment`. What hangs on a piece is asked for with the piece, and nothing is put in
 * order here: most of the cost is the start of a plan's nodes and not the rows. `isNamed` tells of a recorded word `w`
 * about two pieces whether it is about these.
 */
export function garmentFacts(isNamed: string): string {
  return `
  (select json_agg(x) from (select g.*, k.name as kind_name, k.family, k.garment, k.layer,
      (select json_agg(json_build_object('number', t.number, 'state', t.state, 'position', t.position,
        'attached_at', t.attached_at, 'superseded_by', t.superseded_by, 'ended_at', case when t.state in
        ('superseded', 'lost', 'destroyed') then (select a.at from entry e join act a on a.id = e.act
          where e.subject = t.id and e.version = t.version) end)) from tag t where t.piece = g.id) as tags,
      case when g.held then (
        select json_agg(h) from hold h where h.piece = g.id and h.lifted_at is null) end as holds,
      (select json_agg(b) from by_eye b where b.layer = g.id) as eyes,
      (select json_build_object('id', m.id, 'maker', m.maker, 'name', m.name, 'layers', m.layers, 'takes', (
          select json_agg(json_build_object('n', t.n, 'layer_kind', t.layer_kind, 'takes_model', t.takes_model,
            'takes_code', t.takes_code, 'takes_name', y.name))
          from model_takes t left join model y on y.id = t.takes_model where t.model = m.id))
        from model m where m.id = g.model) as model_row
    from garment g left join kind k on k.code = g.kind) x) as pieces,
  (select value from setting where name = 'labels not read') as labels_not_read,
  (select json_agg(w) from acceptance w where not w.withdrawn and case w.scope ->> 'what'
    when 'pieces' then ${isNamed}
    when 'models' then w.scope ->> 'shellModel' in (select g.model::text from garment g)
    else true end) as words`;
}

/** Tells whether labels of these pieces were compared by eye, which is told with a day of the department's time zone. */
export function isComparedByEye(row: GarmentRow): boolean {
  return row.pieces?.some(({ eyes }) => eyes !== null) === true;
}

/** Reads what garmentFacts answered. The zone is asked for only where labels were compared by eye. */
export function garmentFactsFromRow(row: GarmentRow, names: Names, zone: string): GarmentFacts {
  const pieces = row.pieces ?? [];
  const models = pieces.flatMap(({ model_row }) => (model_row ? [model_row] : []));
  return {
    briefs: new Map(pieces.map((piece) => [piece.id as PieceId, briefOfRow(piece, names)])),
    fittings: pieces.flatMap(fittingFromRow).sort((a, b) => (a.layerKind < b.layerKind ? -1 : 1)),
    models: new Map(models.map((model) => [model.id as ModelId, model])),
    facts: {
      ...factsFromRow(row),
      comparedByEye: pieces.flatMap(({ eyes }) => eyesFromRow(eyes ?? [], zone)),
    },
    labelsNotRead: row.labels_not_read ?? STARTING_SETTINGS["labels not read"],
  };
}

function briefOfRow(piece: PieceOfGarment, names: Names): PieceBrief {
  const number = inOrder(piece.tags ?? []).find(({ state }) => state === "attached")?.number;
  const holds = (piece.holds ?? []).map(holdFromRow).sort((a, b) => a.version - b.version);
  return briefFromRow(piece, { names, holds, ...(number ? { number: number as TagNumber } : {}) });
}

/** Live tags first, then by where they sit. */
export function inOrder(tags: readonly TagInJson[]): TagInJson[] {
  const key = ({ state, position, number }: TagInJson) =>
    `${state === "attached" ? 0 : 1} ${position ?? ""} ${number}`;
  return [...tags].sort((a, b) => (key(a) < key(b) ? -1 : 1));
}

function eyesFromRow(eyes: readonly InJson<ByEyeRow>[], zone: string): ComparedByEye[] {
  const ordered = [...eyes].sort((a, b) => a.n - b.n);
  return ordered.map(({ shell, layer, compared_by, compared_at }) => ({
    outer: shell as PieceId,
    inner: layer as PieceId,
    by: compared_by,
    on: dayIn(zone, Date.parse(compared_at)),
  }));
}

function fittingFromRow(row: PieceOfGarment): FittedNow[] {
  const { layer_kind, fitted_at, fitted_how } = row;
  if (layer_kind === null || fitted_at === null) return [];
  return [
    {
      shell: row.fitted_in as PieceId,
      layer: row.id as PieceId,
      layerKind: layer_kind,
      since: wireInstant(fitted_at),
      evidence: fitted_how as Evidence,
    },
  ];
}

function holdFromRow(hold: InJson<HoldRow>): HoldView {
  return {
    version: hold.version,
    kind: hold.hold_kind as HoldKind,
    ...(hold.with_piece ? { with: hold.with_piece as PieceId } : {}),
    ...(hold.event ? { event: hold.event as EventId } : {}),
    placedAt: wireInstant(hold.placed_at),
    placedBy: hold.placed_by as AccountId,
  };
}

function factsFromRow(row: GarmentRow): Omit<CheckFacts, "comparedByEye"> {
  const models = new Map(
    (row.pieces ?? []).flatMap(({ model_row }) => (model_row ? [[model_row.id, model_row]] : [])),
  );
  const words = [...(row.words ?? [])].sort((a, b) => (a.id < b.id ? -1 : 1));
  return {
    takes: [...models.values()].flatMap(({ id, takes }) =>
      [...(takes ?? [])]
        .sort((a, b) => a.n - b.n)
        .map((one) => ({
          shellModel: id as ModelId,
          layerKind: one.layer_kind,
          ...(one.takes_model ? { takesModel: one.takes_model as ModelId } : {}),
          ...(one.takes_name ? { takesModelName: one.takes_name } : {}),
          ...(one.takes_code ? { takesLinerCode: one.takes_code } : {}),
        })),
    ),
    acceptedCombinations: words.map((word) => ({
      id: word.id as Uuid,
      saidBy: word.said_by,
      saidByName: word.said_by_name,
      saidOn: word.said_on as LocalDate,
      document: word.document,
      scope: word.scope as AcceptedCombination["scope"],
    })),
  };
}
