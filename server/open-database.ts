import { checkDatabase, checkVersion } from "../db/check-database.ts";
import { type EmbeddedDatabase, startEmbedded } from "../db/embedded.ts";
import { migrate, pendingMigrations } from "../db/migrate.ts";
import { StartTrouble } from "../db/start-trouble.ts";
import type { Config } from "./config.ts";

/** The database that this server works on, migrated and found fit. */
export interface OpenDatabase {
  readonly appUrl: string;
  /** The owner's way in, where this process has one. */
  readonly ownerUrl: string | undefined;
  /** A short id of the database, the same for every server that uses it. */
  readonly databaseId: string;
  /** False while the database that comes along is down and being started again. */
  readonly isUp: () => boolean;
  readonly watch: (listener: (state: "down" | "up") => void) => void;
  /** Stops the database if it is ours to stop. */
  readonly close: () => Promise<void>;
}

/** Starts or reaches the database, brings its schema up to date, and refuses one that could lose or rewrite acts. */
export async function openDatabase(config: Config): Promise<OpenDatabase> {
  return config.databaseUrl === undefined
    ? openEmbedded(await startEmbedded({ dataDir: config.dataDir }))
    : reach(config.databaseUrl, config.migrateDatabaseUrl);
}

async function openEmbedded(database: EmbeddedDatabase): Promise<OpenDatabase> {
  try {
    await migrate(database.ownerUrl);
    const databaseId = await checkDatabase(database.appUrl);
    return { ...database, databaseId, close: database.stop };
  } catch (error) {
    await database.stop();
    throw error;
  }
}

async function reach(appUrl: string, ownerUrl: string | undefined): Promise<OpenDatabase> {
  try {
    await checkVersion(ownerUrl ?? appUrl);
    if (ownerUrl) await migrate(ownerUrl);
    else await refusePending(appUrl);
    const databaseId = await checkDatabase(appUrl);
    return { appUrl, ownerUrl, databaseId, isUp: () => true, watch: () => {}, close: async () => {} };
  } catch (error) {
    throw error instanceof StartTrouble ? error : unreachable(error);
  }
}

async function refusePending(appUrl: string): Promise<void> {
  const pending = await pendingMigrations(appUrl);
  if (pending.length === 0) return;
  throw new StartTrouble(
    "migration-refused",
    `The database lacks ${pending.join(", ")}. Start once with MIGRATE_DATABASE_URL set to the owner of its tables.`,
  );
}

/** The driver's errors carry codes of PostgreSQL and of the network; whichever it is, its own words say it best. */
function unreachable(error: unknown): unknown {
  const { code, message } = error as { code?: unknown; message?: unknown };
  if (typeof code !== "string" && !String(message).includes("timeout")) return error;
  const words = error instanceof AggregateError ? error.errors.map(String).join(", ") : String(message);
  return new StartTrouble("database-refused", `The database of DATABASE_URL could not be used: ${words}.`, {
    cause: error,
  });
}
