import crypto from "node:crypto";
import type { Kysely } from "kysely";
import type pg from "pg";
import { afterAll, beforeAll, expect, inject } from "vitest";
import { kyselyOn, openClient, openPool } from "../../db/connect.ts";
import { APP_ROLE, OWNER_ROLE } from "../../db/roles.ts";
import type { Database } from "../../db/schema/database.ts";
import { roleUrl } from "./test-roles.ts";

/** A database of one test file, migrated and empty. */
export interface TestDatabase {
  readonly name: string;
  /** In the role that the running server has. */
  readonly appUrl: string;
  /** In the role that owns the tables, to tamper with what the application may not touch. */
  readonly ownerUrl: string;
  /** Queries in the application's role. */
  readonly app: Kysely<Database>;
  readonly appPool: pg.Pool;
  /** Queries in the owner's role. */
  readonly owner: Kysely<Database>;
}

/**
 * Gives the test file a database of its own, cloned from the migrated template before its first test and dropped
 * after its last. A connection that the file opened and left open fails the file. Call it once, at the top level or
 * in a describe; read its members inside tests and hooks.
 */
export function useTestDatabase(): TestDatabase {
  let open: OpenDatabase | undefined;
  beforeAll(async () => {
    open = await cloneTemplate();
  });
  afterAll(async () => {
    const leaked = (await open?.drop()) ?? [];
    expect(leaked, "connections left open by this test file").toEqual([]);
  });
  const current = (): TestDatabase => {
    if (!open)
      throw new Error("The test database is there from the first hook on, not while the file is read.");
    return open.database;
  };
  return {
    get name() {
      return current().name;
    },
    get appUrl() {
      return current().appUrl;
    },
    get ownerUrl() {
      return current().ownerUrl;
    },
    get app() {
      return current().app;
    },
    get appPool() {
      return current().appPool;
    },
    get owner() {
      return current().owner;
    },
  };
}

export interface OpenDatabase {
  readonly database: TestDatabase;
  /** Ends the handles above, so that the database can itself be cloned. */
  readonly close: () => Promise<void>;
  /** Ends the handles above, drops the database, and names the connections that somebody else left open. */
  readonly drop: () => Promise<readonly string[]>;
}

/**
 * Clones the migrated template, or another database to which nobody is connected. Prefer `useTestDatabase`; this is
 * for a test that needs a second database.
 */
export async function cloneTemplate(template: string = inject("template")): Promise<OpenDatabase> {
  const superUrl = inject("superUrl");
  const name = `layertrail_${crypto.randomBytes(6).toString("hex")}`;
  await asSuperuser(superUrl, (client) =>
    client.query(`create database ${name} template ${template} owner ${OWNER_ROLE}`),
  );
  const appUrl = roleUrl(superUrl, APP_ROLE, name);
  const ownerUrl = roleUrl(superUrl, OWNER_ROLE, name);
  const appPool = openPool(appUrl, { applicationName: "test kit" });
  const app = kyselyOn(appPool);
  const owner = kyselyOn(openPool(ownerUrl, { applicationName: "test kit", max: 2 }));
  let closing: Promise<unknown> | undefined;
  const close = async () => {
    closing ??= Promise.all([app.destroy(), owner.destroy()]);
    await closing;
  };
  const drop = async () => {
    await close();
    return asSuperuser(superUrl, async (client) => {
      const leaked = await connectionsTo(client, name);
      await client.query(`drop database ${name} with (force)`);
      return leaked;
    });
  };
  return { database: { name, appUrl, ownerUrl, app, appPool, owner }, close, drop };
}

/** A connection that was just ended is seen for a moment longer, so the list is asked for until it is empty. */
async function connectionsTo(client: pg.Client, database: string): Promise<readonly string[]> {
  for (let attempt = 0; ; attempt += 1) {
    const { rows } = await client.query<{ who: string }>(
      `select usename || ' (' || application_name || '): ' || left(query, 120) as who
       from pg_stat_activity where datname = $1 and backend_type = 'client backend'`,
      [database],
    );
    if (rows.length === 0 || attempt === 20) return rows.map((row) => row.who);
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
}

async function asSuperuser<T>(superUrl: string, work: (client: pg.Client) => Promise<T>): Promise<T> {
  const client = await openClient(superUrl);
  try {
    return await work(client);
  } finally {
    await client.end();
  }
}
