import type pg from "pg";

export interface Column {
  readonly name: string;
  /** As PostgreSQL writes it: `timestamp with time zone`, `text[]`. */
  readonly type: string;
  readonly isNullable: boolean;
  readonly filledBy: "caller" | "default" | "identity" | "generated";
  /** The default or the generating expression, as SQL. */
  readonly expression: string | undefined;
  /** What a check on this column alone allows, when it lists texts. */
  readonly allowed: readonly string[] | undefined;
}

export interface Table {
  readonly name: string;
  readonly columns: readonly Column[];
  /** `name: definition` of each constraint, sorted. */
  readonly constraints: readonly string[];
  /** Definitions of the indexes that no constraint made, sorted. */
  readonly indexes: readonly string[];
  /** What each role but the owner may do, sorted. */
  readonly grants: readonly string[];
}

/** PostgreSQL writes `x = any (array[…])`, and a single value as `x = '…'`. */
const ALLOWED_TEXTS = /^CHECK \(\((\w+) = ANY \(ARRAY\[(.*)\]\)\)\)$/s;

const TABLES = `
  select c.oid::int as oid, c.relname as name
  from pg_class c where c.relnamespace = 'public'::regnamespace and c.relkind = 'r' and c.relname <> 'migration'
  order by c.relname`;
const COLUMNS = `
  select attrelid::int as oid, attname as name, format_type(atttypid, atttypmod) as type, not attnotnull as nullable,
         attidentity as identity, attgenerated as generated, pg_get_expr(adbin, adrelid) as expression
  from pg_attribute left join pg_attrdef on adrelid = attrelid and adnum = attnum
  where attnum > 0 and not attisdropped order by attrelid, attnum`;
const CONSTRAINTS = `
  select conrelid::int as oid, conname as name, pg_get_constraintdef(oid) as definition
  from pg_constraint where contype <> 'n' order by conname`;
const INDEXES = `
  select indrelid::int as oid, pg_get_indexdef(indexrelid) as definition
  from pg_index where not exists (select from pg_constraint where conindid = indexrelid)`;
const GRANTS = `
  select format('public.%I', table_name)::regclass::oid::int as oid, grantee || ': ' || string_agg(lower(privilege_type), ', ' order by privilege_type) as grant
  from information_schema.role_table_grants
  where table_schema = 'public' and grantee not in (select tableowner from pg_tables where schemaname = 'public')
  group by table_name, grantee`;

interface ColumnRow {
  readonly oid: number;
  readonly name: string;
  readonly type: string;
  readonly nullable: boolean;
  readonly identity: string;
  readonly generated: string;
  readonly expression: string | null;
}

/** Reads what the tables of the product look like, in a fixed order. The table of migrations is left out. */
export async function readSchema(client: pg.Client): Promise<readonly Table[]> {
  const { rows: tables } = await client.query<{ oid: number; name: string }>(TABLES);
  const { rows: columns } = await client.query<ColumnRow>(COLUMNS);
  const { rows: constraints } = await client.query<{ oid: number; name: string; definition: string }>(
    CONSTRAINTS,
  );
  const { rows: indexes } = await client.query<{ oid: number; definition: string }>(INDEXES);
  const { rows: grants } = await client.query<{ oid: number; grant: string }>(GRANTS);
  const of = <Row extends { readonly oid: number }>(rows: readonly Row[], oid: number) =>
    rows.filter((row) => row.oid === oid);
  return tables.map(({ oid, name }) => {
    const allowed = allowedTexts(of(constraints, oid).map((row) => row.definition));
    return {
      name,
      columns: of(columns, oid).map((row) => columnFromRow(row, allowed.get(row.name))),
      constraints: of(constraints, oid).map((row) => `${row.name}: ${row.definition}`),
      indexes: of(indexes, oid)
        .map((row) => row.definition)
        .sort(),
      grants: of(grants, oid)
        .map((row) => row.grant)
        .sort(),
    };
  });
}

function columnFromRow(row: ColumnRow, allowed: readonly string[] | undefined): Column {
  const expression = row.expression ?? undefined;
  return {
    name: row.name,
    type: row.type,
    isNullable: row.nullable,
    filledBy: row.generated ? "generated" : row.identity ? "identity" : expression ? "default" : "caller",
    expression,
    allowed: row.type === "text" ? allowed : undefined,
  };
}

function allowedTexts(definitions: readonly string[]): ReadonlyMap<string, readonly string[]> {
  const allowed = new Map<string, readonly string[]>();
  for (const definition of definitions) {
    const [, column, list] = ALLOWED_TEXTS.exec(definition) ?? [];
    if (column === undefined || list === undefined) continue;
    const texts = [...list.matchAll(/'((?:[^']|'')*)'::text/g)].map(([, text = ""]) =>
      text.replaceAll("''", "'"),
    );
    if (texts.length > 0) allowed.set(column, texts);
  }
  return allowed;
}
