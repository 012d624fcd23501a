import { sql } from "kysely";
import type { Rulebook } from "../domain/bench/rulebook.ts";
import type { ModelId, PieceId } from "../domain/ids.ts";
import type { AcceptedCombination } from "../domain/label-check/accepted-combination.ts";
import type { ModelTakes } from "../domain/pieces/label.ts";
import type { KindFacts } from "../domain/register/kind.ts";
import { STARTING_SETTINGS } from "../domain/register/policy.ts";
import type { LocalDate } from "../domain/time.ts";
import { someIds, type Tx } from "./db.ts";

/** A maker, model name and kind as a label gives them: how a piece finds its row of the model table. */
export interface ModelKey {
  readonly kind: string;
  readonly maker?: string;
  readonly name?: string;
}

interface Rules {
  readonly kinds: readonly KindRow[];
  readonly settings: Readonly<Record<string, unknown>> | null;
  readonly words: readonly AcceptedCombination[] | null;
  readonly models: readonly ModelRow[] | null;
}
type KindRow = { readonly [Field in keyof KindFacts]: KindFacts[Field] | null };
interface ModelRow {
  readonly id: ModelId;
  readonly kind: string;
  readonly maker: string;
  readonly name: string;
  readonly layers: readonly string[];
  readonly takes: readonly { [Field in keyof ModelTakes]: ModelTakes[Field] | null }[] | null;
}

/**
 * Reads the rules as they stand, in one question: never kept between acts, so that two servers never answer by
 * different ones. Models come by id or by the names on the pieces' labels, since a model can be described later.
 */
export async function loadRulebook(
  tx: Tx,
  ids: readonly ModelId[],
  keys: readonly ModelKey[],
): Promise<Rulebook & { readonly modelOf: (key: ModelKey) => ModelId | undefined }> {
  const makers = [...new Set(keys.flatMap(({ maker }) => maker?.toLowerCase() ?? []))];
  const found = await sql<Rules>`/* prepared: load-rulebook */ select
    (select json_agg(k) from kind k) as kinds,
    (select json_object_agg(name, value) from setting) as settings,
    (select json_agg(json_build_object('id', id, 'saidBy', said_by, 'saidByName', said_by_name, 'saidOn', said_on,
      'document', document, 'scope', scope)) from acceptance where not withdrawn) as words,
    (select json_agg(json_build_object('id', m.id, 'kind', m.kind, 'maker', m.maker, 'name', m.name, 'layers', m.layers,
      'takes', (select json_agg(json_build_object('shellModel', t.model, 'layerKind', t.layer_kind,
        'takesModel', t.takes_model, 'takesModelName', taken.name, 'takesLinerCode', t.takes_code) order by t.n)
        from model_takes t left join model taken on taken.id = t.takes_model where t.model = m.id)))
      from model m where m.id = any(${someIds(ids)}) or lower(m.maker) = any((select ${makers}::text[])::text[])) as models`.execute(
    tx,
  );
  const rules = found.rows[0];
  const models = rules?.models ?? [];
  const settings = { ...STARTING_SETTINGS, ...(rules?.settings ?? {}) };
  const byName = new Map(models.map((model) => [keyText(model), model.id]));
  return {
    kinds: new Map((rules?.kinds ?? []).map((kind) => [kind.code ?? "", withoutNulls<KindFacts>(kind)])),
    layersOfModel: new Map(models.map(({ id, layers }) => [id, layers])),
    modelTable: models.flatMap(({ takes }) => (takes ?? []).map((row) => withoutNulls<ModelTakes>(row))),
    words: rules?.words ?? [],
    settings,
    dayOf: (at) => dayIn(settings["time zone"], at),
    modelOf: (key) => byName.get(keyText(key)),
  };
}

function keyText({ kind, maker = "", name = "" }: ModelKey): string {
  return [kind, maker.toLowerCase(), name.toLowerCase()].join("\u0000");
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

/**
 * Lists what is fitted in or around pieces at a moment: the layers in each shell, and the shell that each layer is in,
 * with the other layers in it.
 */
export async function fittedWith(tx: Tx, pieces: readonly PieceId[], at: number): Promise<PieceId[]> {
  if (pieces.length === 0) return [];
  const found = await sql<{ layer: PieceId; shell: PieceId }>`/* prepared: fitted-with */
    select layer, shell from fitting
    where shell = any(${someIds(pieces)}) and from_at <= ${new Date(at)} and (to_at is null or to_at > ${new Date(at)})
    union all
    select layer, shell from fitting
    where layer = any(${someIds(pieces)}) and from_at <= ${new Date(at)} and (to_at is null or to_at > ${new Date(at)})`.execute(
    tx,
  );
  return found.rows.flatMap(({ layer, shell }) => [layer, shell]);
}

const DAYS = new Map<string, Intl.DateTimeFormat>();

/** Gives the calendar day of an instant in a time zone, such as `America/Chicago`. */
export function dayIn(timeZone: string, at: number): LocalDate {
  const format = DAYS.get(timeZone) ?? new Intl.DateTimeFormat("en-CA", { timeZone, dateStyle: "short" });
  DAYS.set(timeZone, format);
  return format.format(new Date(at)) as LocalDate;
}
