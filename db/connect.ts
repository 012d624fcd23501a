import { Kysely, PostgresDialect } from "kysely";
import pg from "pg";
import type { Database } from "./schema/database.ts";

/** PostgreSQL's own numbers for the types whose JavaScript form we decide ourselves. */
const OID = { int8: 20, date: 1082, int8Array: 1016, dateArray: 1182 } as const;

function wholeNumber(text: string): number {
  const value = Number(text);
  if (!Number.isSafeInteger(value)) throw new RangeError(`${text} is too large for a JavaScript number.`);
  return value;
}

const asText = (text: string): string => text;
const arrayOf =
  <T>(parse: (text: string) => T) =>
  (text: string): T[] =>
    text === "{}" ? [] : text.slice(1, -1).split(",").map(parse);

/**
 * How values come out of the database, everywhere: int8 as a number (beyond 2^53 it throws, it never rounds), date
 * as its text, because a Date would move the day with the time zone of the machine; timestamptz stays a Date.
 */
const columnParsers: pg.CustomTypesConfig = {
  getTypeParser: ((oid: number, format?: "text" | "binary") => {
    if (format === "binary") return pg.types.getTypeParser(oid, "binary");
    if (oid === OID.int8) return wholeNumber;
    if (oid === OID.date) return asText;
    if (oid === OID.int8Array) return arrayOf(wholeNumber);
    if (oid === OID.dateArray) return arrayOf(asText);
    return pg.types.getTypeParser(oid, "text");
  }) as typeof pg.types.getTypeParser,
};

export interface PoolOptions {
  /** Connections at most. */
  readonly max?: number;
  readonly applicationName?: string;
}

/** How a text begins that each connection plans once, under the name that it gives. */
const PREPARED = /^\/\* prepared: ([a-z0-9-]+) \*\//;

/**
 * A connection that prepares texts that ask for it. A text must be constant under its name; values go as parameters.
 * Kysely has no word for it, and planning a large question anew costs several times what running it does.
 */
class PreparingClient extends pg.Client {
  override query(...asked: unknown[]): never {
    const [text, values, ...rest] = asked;
    const name = typeof text === "string" ? PREPARED.exec(text)?.[1] : undefined;
    const passed = name ? [{ name, text, values }, ...rest] : asked;
    return (super.query as (...passed: unknown[]) => never).apply(this, passed);
  }
}

/** Opens a pool on a PostgreSQL connection URL; a socket folder is given as `?host=/folder`. */
export function openPool(url: string, options: PoolOptions = {}): pg.Pool {
  const pool = new pg.Pool({
    connectionString: url,
    Client: PreparingClient,
    types: columnParsers,
    max: options.max ?? 20,
    connectionTimeoutMillis: 5_000,
    application_name: options.applicationName ?? "layertrail",
  });
  // A connection that dies with its server is replaced by the pool, and what runs on it fails by itself; without a
  // listener on the pool (while it lies idle) and on the connection (between two questions) it would end the process.
  pool.on("error", () => {});
  pool.on("connect", (client) => client.on("error", () => {}));
  return pool;
}

/** Opens one connection, with the same forms of values as the pool. The caller ends it. */
export async function openClient(url: string): Promise<pg.Client> {
  const client = new pg.Client({
    connectionString: url,
    types: columnParsers,
    connectionTimeoutMillis: 5_000,
  });
  client.on("error", () => {});
  await client.connect();
  return client;
}

/** Makes the typed handle that server/store works with. Destroying it ends the pool. */
export function kyselyOn(pool: pg.Pool): Kysely<Database> {
  return new Kysely<Database>({ dialect: new PostgresDialect({ pool }) });
}
