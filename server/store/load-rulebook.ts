import type { Rulebook } from "../domain/bench/rulebook.ts";
import type { ContaminantRule } from "../domain/contamination/contaminant-rule.ts";
import type { EventBrief } from "../domain/contamination/standing-contamination.ts";
import { rulesInForce } from "../domain/contamination/starting-contaminants.ts";
import type { ModelId } from "../domain/ids.ts";
import type { AcceptedCombination } from "../domain/label-check/accepted-combination.ts";
import type { MakersLabel, ModelTakes } from "../domain/pieces/label.ts";
import type { KindFacts } from "../domain/register/kind.ts";
import type { ModelFacts } from "../domain/register/model.ts";
import { STARTING_SETTINGS } from "../domain/register/policy.ts";
import type { LocalDate } from "../domain/time.ts";
import type { Db, Tx } from "./db.ts";

/** The rules as a question answers them. */
export interface RulesRow {
  readonly kinds: readonly KindRow[] | null;
  readonly settings: Readonly<Record<string, unknown>> | null;
  readonly words: readonly AcceptedCombination[] | null;
  readonly models: readonly ModelRow[] | null;
  readonly contaminants: readonly ContaminantRule[] | null;
  readonly events: readonly EventBrief[] | null;
}
type KindRow = { readonly [Field in keyof KindFacts]: KindFacts[Field] | null };
interface ModelRow {
  readonly id: ModelId;
  readonly kind: string;
  readonly maker: string;
  readonly name: string;
  readonly layers: readonly string[];
  readonly wash: ModelFacts["wash"] | null;
  readonly takes: readonly { [Field in keyof ModelTakes]: ModelTakes[Field] | null }[] | null;
}

/**
 * Columns that tell the rules as they stand about the pieces of a part named `own`: never kept between acts, so that
 * two servers never answer by different ones. Models come by id or by the maker on the pieces' labels, since a model
 * can be described later.
 */
export const RULES_ABOUT_OWN = `
  (select json_agg(k) from kind k where k.code in (select kind from own)) as kinds,
  (select json_object_agg(name, value) from setting) as settings,
  (select json_agg(rule) from contaminant) as contaminants,
  (select json_agg(json_build_object('id', c.id, 'name', c.name, 'kinds', c.kinds)) from contamination_event c
    where c.id in (select m.event from own join piece_met m on m.piece = own.id)) as events,
  (select json_agg(json_build_object('id', id, 'saidBy', said_by, 'saidByName', said_by_name, 'saidOn', said_on,
    'document', document, 'scope', scope)) from acceptance where not withdrawn) as words,
  (select json_agg(json_build_object('id', m.id, 'kind', m.kind, 'maker', m.maker, 'name', m.name, 'layers', m.layers, 'wash', m.wash,
    'takes', (select json_agg(json_build_object('shellModel', t.model, 'layerKind', t.layer_kind,
      'takesModel', t.takes_model, 'takesModelName', taken.name, 'takesLinerCode', t.takes_code) order by t.n)
      from model_takes t left join model taken on taken.id = t.takes_model where t.model = m.id)))
    from model m where m.id in (select model from own) or lower(m.maker) in (select lower(maker) from own)) as models`;

/** A kind and a label, by which a piece finds its row of the model table. */
interface Labelled {
  readonly kind: string;
  readonly label: Pick<MakersLabel, "maker" | "modelName">;
}

/** Makes the rulebook of them, and tells the model that a label means. */
export function rulebookFrom(
  rules: RulesRow,
): Rulebook & { readonly modelOf: (piece: Labelled) => ModelId | undefined } {
  const models = rules.models ?? [];
  const settings = { ...STARTING_SETTINGS, ...(rules.settings ?? {}) };
  const byName = new Map(
    models.map(({ id, kind, maker, name }) => [keyText({ kind, label: { maker, modelName: name } }), id]),
  );
  return {
    kinds: new Map((rules.kinds ?? []).map((kind) => [kind.code ?? "", withoutNulls<KindFacts>(kind)])),
    layersOfModel: new Map(models.map(({ id, layers }) => [id, layers])),
    washOfModel: new Map(models.flatMap(({ id, wash }) => (wash ? [[id, wash] as const] : []))),
    modelTable: models.flatMap(({ takes }) => (takes ?? []).map((row) => withoutNulls<ModelTakes>(row))),
    words: rules.words ?? [],
    settings,
    contaminants: rulesInForce(rules.contaminants ?? []),
    events: new Map((rules.events ?? []).map((event) => [event.id, event])),
    dayOf: (at) => dayIn(settings["time zone"], at),
    modelOf: (piece) => byName.get(keyText(piece)),
  };
}

function keyText({ kind, label: { maker = "", modelName = "" } }: Labelled): string {
  return [kind, maker.toLowerCase(), modelName.toLowerCase()].join("\u0000");
}

function withoutNulls<Facts extends object>(
  row: { readonly [Field in keyof Facts]: Facts[Field] | null },
): Facts {
  return Object.fromEntries(Object.entries(row).filter(([, value]) => value !== null)) as Facts;
}

/** Reads all kinds by their code. */
export async function loadKinds(tx: Tx): Promise<ReadonlyMap<string, KindFacts>> {
  const rows = await tx.selectFrom("kind").selectAll().execute();
  return new Map(rows.map((row) => [row.code, withoutNulls<KindFacts>(row as unknown as KindRow as never)]));
}

const DAYS = new Map<string, Intl.DateTimeFormat>();

/** Gives the calendar day of an instant in a time zone, such as `America/Chicago`. */
export function dayIn(timeZone: string, at: number): LocalDate {
  const format = DAYS.get(timeZone) ?? new Intl.DateTimeFormat("en-CA", { timeZone, dateStyle: "short" });
  DAYS.set(timeZone, format);
  return format.format(new Date(at)) as LocalDate;
}

/** Reads what each kind of contaminant asks for, by the department's policy or as the program begins. */
export async function contaminantRules(db: Db | Tx): Promise<readonly ContaminantRule[]> {
  const rows = await db.selectFrom("contaminant").select("rule").execute();
  return rulesInForce(rows.map(({ rule }) => rule as unknown as ContaminantRule));
}
