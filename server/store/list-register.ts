import { type RawBuilder, sql } from "kysely";
import type { Uuid } from "../domain/ids.ts";
import type { AcceptanceState } from "../domain/register/acceptance.ts";
import type { KindState } from "../domain/register/kind.ts";
import type { OutsideState, ProviderState } from "../domain/register/parties.ts";
import { type Settings, STARTING_SETTINGS } from "../domain/register/policy.ts";
import type { ModelShown } from "../domain/register/register-views.ts";
import type { Db } from "./db.ts";

/** A row of the model table, with the name of each model that it takes. */
export type ModelOnRecord = Omit<ModelShown, "sourceBy">;

/** The rows of one statement that builds JSON, without the fields that are null. */
async function rowsOf<Row extends object>(db: Db, statement: RawBuilder<{ row: object }>): Promise<Row[]> {
  const found = await statement.execute(db);
  return found.rows.map(({ row }) => withoutNulls(row) as Row);
}

function withoutNulls(value: object): object {
  const known = Object.entries(value).filter(([, one]) => one !== null);
  return Object.fromEntries(known.map(([name, one]) => [name, insideWithoutNulls(one)]));
}

function insideWithoutNulls(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(insideWithoutNulls);
  return typeof value === "object" && value !== null ? withoutNulls(value) : value;
}

/** Lists every row of the model table by maker and name, each with what it takes and who says so. */
export function listModels(db: Db): Promise<readonly ModelOnRecord[]> {
  return rowsOf<ModelOnRecord>(
    db,
    sql`select json_build_object('id', m.id, 'version', m.version, 'maker', m.maker, 'name', m.name, 'kind', m.kind,
      'layers', m.layers, 'wash', m.wash,
      'source', json_build_object('what', m.source, 'by', m.source_by, 'on', m.source_on),
      'takes', coalesce((select json_agg(json_build_object('layerKind', t.layer_kind, 'takesModel', t.takes_model,
        'takesModelName', taken.name, 'takesLinerCode', t.takes_code) order by t.n)
        from model_takes t left join model taken on taken.id = t.takes_model where t.model = m.id), '[]')) as row
      from model m order by lower(m.maker), lower(m.name), m.kind`,
  );
}

/** Lists the kinds of pieces by family and name. */
export function listKinds(db: Db): Promise<readonly KindState[]> {
  return rowsOf<KindState>(
    db,
    sql`select json_build_object('id', id, 'version', version, 'code', code, 'name', name, 'family', family,
      'garment', garment, 'layer', layer, 'counted', counted, 'positions', positions) as row
      from kind order by family <> 'structural', family, lower(name)`,
  );
}

/** Lists every recorded word, those in force first, the newest day first. */
export function listAcceptances(db: Db): Promise<readonly AcceptanceState[]> {
  return rowsOf<AcceptanceState>(
    db,
    sql`select json_build_object('id', id, 'version', version, 'scope', scope, 'saidBy', said_by,
      'saidByName', said_by_name, 'document', document, 'saidOn', said_on, 'withdrawn', withdrawn) as row
      from acceptance order by withdrawn, said_on desc, id desc`,
  );
}

/** Lists the providers by name, closed ones last. */
export function listProviders(db: Db): Promise<readonly ProviderState[]> {
  return rowsOf<ProviderState>(
    db,
    sql`select json_build_object('id', id, 'version', version, 'name', name, 'verifiedUntil', verified_until,
      'verifiedBy', verified_by, 'closed', closed) as row from provider order by closed, lower(name)`,
  );
}

/** Lists the parties outside the department by name, closed ones last. */
export function listOutside(db: Db): Promise<readonly OutsideState[]> {
  return rowsOf<OutsideState>(
    db,
    sql`select json_build_object('id', id, 'version', version, 'name', name, 'what', what,
      'closed', closed) as row from outside order by closed, lower(name)`,
  );
}

/** Reads the settings as they stand, each with the value it starts with where nobody has set it. */
export async function readSettings(db: Db): Promise<Settings> {
  const rows = await db.selectFrom("setting").select(["name", "value"]).execute();
  return { ...STARTING_SETTINGS, ...Object.fromEntries(rows.map(({ name, value }) => [name, value])) };
}

/** The pieces and models that the scope of a recorded word names. */
export function idsInScope(scope: AcceptanceState["scope"]): readonly Uuid[] {
  switch (scope.what) {
    case "pieces":
      return [scope.shell, scope.layer];
    case "models":
      return scope.layerModel ? [scope.shellModel, scope.layerModel] : [scope.shellModel];
    case "codes":
      return [];
    default:
      return scope satisfies never;
  }
}
