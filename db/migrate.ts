import pg from "pg";
import { openClient } from "./connect.ts";
import { type Migration, readMigrations } from "./read-migrations.ts";
import { APP_ROLE } from "./roles.ts";
import { StartTrouble } from "./start-trouble.ts";

/** Any number will do, as long as nothing else in the database takes an advisory lock on it. */
const MIGRATION_LOCK = 4_180_001;

interface LandedRow {
  readonly number: number;
  readonly name: string;
  readonly checksum: string;
}

/**
 * Brings the schema up to date as its owner, one transaction a file, and returns the names of the files that ran.
 * Two servers that start at once wait for each other. An edited file that has landed is refused by name.
 */
export async function migrate(
  ownerUrl: string,
  migrations: readonly Migration[] = readMigrations(),
): Promise<readonly string[]> {
  const client = await openClient(ownerUrl);
  try {
    await client.query("select pg_advisory_lock($1)", [MIGRATION_LOCK]);
    await client.query(
      `create table if not exists migration (
         number integer primary key, name text not null, checksum text not null,
         landed_at timestamptz not null default now())`,
    );
    const pending = comparePending(await landedIn(client), migrations);
    for (const migration of pending) await land(client, migration);
    await letAppRead(client);
    return pending.map((migration) => migration.name);
  } finally {
    await client.end();
  }
}

/** Names the migrations that the database still lacks, asked in the application's role. */
export async function pendingMigrations(
  appUrl: string,
  migrations: readonly Migration[] = readMigrations(),
): Promise<readonly string[]> {
  const client = await openClient(appUrl);
  try {
    const { rows } = await client.query<{ there: boolean }>(
      "select to_regclass('migration') is not null as there",
    );
    const landed = rows[0]?.there ? await landedIn(client) : [];
    return comparePending(landed, migrations).map((migration) => migration.name);
  } finally {
    await client.end();
  }
}

async function landedIn(client: pg.Client): Promise<readonly LandedRow[]> {
  const { rows } = await client.query<LandedRow>(
    "select number, name, checksum from migration order by number",
  );
  return rows;
}

function comparePending(
  landed: readonly LandedRow[],
  migrations: readonly Migration[],
): readonly Migration[] {
  for (const row of landed) {
    const file = migrations.find((migration) => migration.number === row.number);
    if (!file) {
      throw new StartTrouble(
        "migration-refused",
        `The database has migration ${row.name}, which this Layertrail does not know: it was used by a newer one. Start that one.`,
      );
    }
    if (file.name !== row.name || file.checksum !== row.checksum) {
      throw new StartTrouble(
        "migration-refused",
        `Migration ${row.name} landed in this database and was edited or renamed since (${file.name}). Restore the file; a change goes into a new one.`,
      );
    }
  }
  const pending = migrations.filter((migration) => landed.every((row) => row.number !== migration.number));
  const last = landed.at(-1);
  const late = pending.find((migration) => last && migration.number < last.number);
  if (late && last) {
    throw new StartTrouble(
      "migration-refused",
      `Migration ${late.name} comes after ${last.name} has landed in this database. Give it a higher number.`,
    );
  }
  return pending;
}

async function land(client: pg.Client, migration: Migration): Promise<void> {
  try {
    await client.query("begin");
    await client.query(migration.sql);
    await client.query("insert into migration (number, name, checksum) values ($1, $2, $3)", [
      migration.number,
      migration.name,
      migration.checksum,
    ]);
    await client.query("commit");
  } catch (error) {
    await client.query("rollback").catch(() => {});
    throw refusal(migration, error);
  }
}

function refusal(migration: Migration, error: unknown): unknown {
  if (!(error instanceof pg.DatabaseError)) return error;
  const position = Number(error.position);
  const line = position > 0 ? `, line ${migration.sql.slice(0, position).split("\n").length}` : "";
  return new StartTrouble(
    "migration-refused",
    `Migration ${migration.name}${line} was refused by the database: ${error.message}. Nothing of it was kept.`,
    { cause: error },
  );
}

async function letAppRead(client: pg.Client): Promise<void> {
  const { rowCount } = await client.query("select from pg_roles where rolname = $1", [APP_ROLE]);
  if (rowCount === 1) await client.query(`grant select on migration to ${APP_ROLE}`);
}
