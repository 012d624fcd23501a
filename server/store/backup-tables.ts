import { sql } from "kysely";
import { asList } from "./backup-ledger.ts";
import type { Tx } from "./db.ts";
import { walk } from "./walk.ts";

/** Tables whose rows follow from no entry and are kept in a backup, in the order in which they go in again. */
export const BESIDE_TABLES = ["person", "credential", "import_file", "print_run", "viewing", "scan"] as const;
export type BesideTable = (typeof BESIDE_TABLES)[number];

/** What a backup leaves out, and why: a copy is another database, at which nobody is signed in yet. */
export const LEFT_OUT = {
  session: "nobody is signed in at a copy",
  one_time_link: "a link opens the database that it was made for, for a day",
  bench_device: "a bench is enrolled at one database by a secret of its browser",
  pin_tries: "they are counted at enrolled benches",
  job: "long work is begun anew at a copy",
  import_upload: "a file that was not accepted is brought in again",
  import_problem: "it tells of a file that was not accepted",
  print_file: "the record can draw it again",
  ledger_head: "it is the last act",
  migration: "the copy has its own",
} as const;

/** Walks the rows of a table that is kept beside the ledger, as lines of JSON: bytea in hexadecimal, times exact. */
export async function* walkBeside(tx: Tx, table: BesideTable): AsyncGenerator<readonly string[]> {
  const query = sql`select to_jsonb(t)::text as line from ${sql.table(table)} t order by 1`;
  const ordered = hasIdentity(table)
    ? sql`select (to_jsonb(t) - 'id')::text as line from ${sql.table(table)} t order by t.id`
    : query;
  const pace = { batch: 2_000, isAhead: true };
  for await (const rows of walk<{ line: string }>(tx, `beside_${table}`, ordered, pace)) {
    yield rows.map(({ line }) => line);
  }
}

/** Rows of these are numbered by the database as they come in; nothing refers to the numbers. */
function hasIdentity(table: BesideTable): boolean {
  return table === "viewing" || table === "scan";
}

/** Puts rows into a table; columns that the rows do not name, since they are of an older build, take their default. */
export async function insertBeside(tx: Tx, table: BesideTable, lines: readonly string[]): Promise<void> {
  const known = await columnsOf(tx, table);
  const columns = Object.keys(JSON.parse(lines[0] ?? "{}") as object).filter((column) => known.has(column));
  if (columns.length === 0) return;
  const list = sql.join(columns.map((column) => sql.ref(column)));
  await sql`insert into ${sql.table(table)} (${list})
    select ${list} from json_populate_recordset(null::${sql.table(table)}, ${asList(lines)}::json)`.execute(
    tx,
  );
}

async function columnsOf(tx: Tx, table: string): Promise<ReadonlySet<string>> {
  const { rows } = await sql<{ name: string }>`
    select attname as name from pg_attribute
    where attrelid = ${table}::regclass and attnum > 0 and not attisdropped and attidentity = ''`.execute(tx);
  return new Set(rows.map(({ name }) => name));
}

/** Names the migrations that the database has, in order. */
export async function landedMigrations(tx: Tx): Promise<string[]> {
  const { rows } = await sql<{ name: string }>`select name from migration order by number`.execute(tx);
  return rows.map(({ name }) => name);
}
