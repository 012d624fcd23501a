import type { AcceptanceRow, ByEyeRow, HoldRow, TagRow } from "../../db/schema/database.ts";
import type { Evidence } from "../domain/evidence.ts";
import type { AccountId, ModelId, PieceId, Uuid } from "../domain/ids.ts";
import type { AcceptedCombination } from "../domain/label-check/accepted-combination.ts";
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

/** What a query answers of garments, as GARMENT_FACTS asks it. */
export interface GarmentRow {
  readonly pieces: readonly (PieceInJson & KindInJson & FittedInJson)[] | null;
  readonly tags: readonly TagInJson[] | null;
  readonly holds: readonly InJson<HoldRow>[] | null;
  readonly settings: { readonly "time zone"?: string; readonly "labels not read"?: StopOrSay } | null;
  readonly models: readonly (ModelOnRecord & { readonly takes: readonly TakesInJson[] | null })[] | null;
  readonly words: readonly InJson<AcceptanceRow>[] | null;
  readonly eyes: readonly InJson<ByEyeRow>[] | null;
}
/** How a layer is fitted in the shell; all null for the shell itself. */
export interface FittedInJson {
  readonly layer_kind: string | null;
  readonly fitted_at: string | null;
  readonly fitted_how: string | null;
}
export interface TagInJson
  extends Pick<InJson<TagRow>, "piece" | "number" | "state" | "position" | "attached_at"> {
  readonly superseded_by: string | null;
  readonly ended_at: string | null;
}
interface TakesInJson {
  readonly layer_kind: string;
  readonly takes_model: string | null;
  readonly takes_code: string | null;
  readonly takes_name: string | null;
}

/**
 * What a query asks of the pieces in `garment`, with their holds in `held`. For each kind of fact one question, since
 * most of the cost is the start of a plan's nodes and not the rows.
 */
export const GARMENT_FACTS = `
  (select json_agg(x) from (select g.*, k.name as kind_name, k.family, k.garment, k.layer
    from garment g left join kind k on k.code = g.kind) x) as pieces,
  (select json_agg(json_build_object('piece', t.piece, 'number', t.number, 'state', t.state, 'position', t.position,
      'attached_at', t.attached_at, 'superseded_by', t.superseded_by, 'ended_at', case when t.state in
      ('superseded', 'lost', 'destroyed') then (select a.at from entry e join act a on a.id = e.act
        where e.subject = t.id and e.version = t.version) end) order by t.state <> 'attached', t.position, t.number)
    from garment g join tag t on t.piece = g.id) as tags,
  (select json_agg(h order by h.version) from held h) as holds,
  (select json_object_agg(name, value) from setting) as settings,
  (select json_agg(json_build_object('id', m.id, 'maker', m.maker, 'name', m.name, 'layers', m.layers, 'takes', (
      select json_agg(json_build_object('layer_kind', t.layer_kind, 'takes_model', t.takes_model,
        'takes_code', t.takes_code, 'takes_name', x.name) order by t.n)
      from model_takes t left join model x on x.id = t.takes_model where t.model = m.id)))
    from model m where m.id in (select model from garment)) as models,
  (select json_agg(w order by w.id) from acceptance w where not w.withdrawn and case w.scope ->> 'what'
    when 'pieces' then exists (
      select from garment g where g.id::text in (w.scope ->> 'shell', w.scope ->> 'layer'))
    when 'models' then exists (select from garment g where g.model::text = w.scope ->> 'shellModel')
    else true end) as words,
  (select json_agg(b) from garment g join by_eye b on b.layer = g.id) as eyes`;

/** Reads what GARMENT_FACTS answered. */
export function garmentFactsFromRow(row: GarmentRow, names: Names): GarmentFacts {
  const pieces = row.pieces ?? [];
  const brief = (each: PieceInJson & KindInJson) => {
    const number = row.tags?.find((tag) => tag.piece === each.id && tag.state === "attached")?.number;
    const holds = (row.holds ?? []).filter((hold) => hold.piece === each.id).map(holdFromRow);
    return briefFromRow(each, { names, holds, ...(number ? { number: number as TagNumber } : {}) });
  };
  return {
    briefs: new Map(pieces.map((each) => [each.id as PieceId, brief(each)])),
    fittings: pieces.flatMap(fittingFromRow),
    models: new Map((row.models ?? []).map((model) => [model.id as ModelId, model])),
    facts: factsFromRow(row),
    labelsNotRead: row.settings?.["labels not read"] ?? STARTING_SETTINGS["labels not read"],
  };
}

function fittingFromRow(row: PieceInJson & FittedInJson): FittedNow[] {
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
    placedAt: wireInstant(hold.placed_at),
    placedBy: hold.placed_by as AccountId,
  };
}

function factsFromRow(row: GarmentRow): CheckFacts {
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
