import fs from "node:fs";
import os from "node:os";
import path from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { openClient } from "../../db/connect.ts";
import { migrate, pendingMigrations } from "../../db/migrate.ts";
import { readMigrations } from "../../db/read-migrations.ts";
import { useTestDatabase } from "../kit/test-database.ts";

const db = useTestDatabase();
let dir: string;

beforeEach(() => {
  dir = fs.mkdtempSync(path.join(os.tmpdir(), "migrations-"));
  for (const { name, sql } of readMigrations()) fs.writeFileSync(path.join(dir, name), sql);
});
afterEach(() => fs.rmSync(dir, { recursive: true, force: true }));

const nextNumber = () => String((readMigrations().at(-1)?.number ?? 0) + 1).padStart(4, "0");

function addMigration(name: string, sql: string): string {
  const file = `${nextNumber()}-${name}.sql`;
  fs.writeFileSync(path.join(dir, file), sql);
  return file;
}

async function tableExists(name: string): Promise<boolean> {
  const client = await openClient(db.ownerUrl);
  const { rows } = await client
    .query<{ there: boolean }>("select to_regclass($1) is not null as there", [name])
    .finally(() => client.end());
  return rows[0]?.there === true;
}

describe("migrations", () => {
  it("run once: an up-to-date database is left alone", async () => {
    expect(await migrate(db.ownerUrl)).toEqual([]);
    expect(await pendingMigrations(db.appUrl)).toEqual([]);
  });

  it("refuse a landed file that was edited since, by its name", async () => {
    fs.appendFileSync(path.join(dir, "0001-ledger.sql"), "-- a word more\n");
    await expect(migrate(db.ownerUrl, readMigrations(dir))).rejects.toThrow(
      /0001-ledger\.sql landed .* was edited/,
    );
  });

  it("take a landed file with other line ends for the same", async () => {
    const file = path.join(dir, "0001-ledger.sql");
    fs.writeFileSync(file, fs.readFileSync(file, "utf8").replaceAll("\n", "\r\n"));
    expect(await migrate(db.ownerUrl, readMigrations(dir))).toEqual([]);
  });

  it("refuse a number given twice and a file that is none, by the name of the file", () => {
    fs.writeFileSync(path.join(dir, "0001-other.sql"), "select 1;");
    expect(() => readMigrations(dir)).toThrow(/0001-other\.sql .* is no migration/);
    fs.renameSync(path.join(dir, "0001-other.sql"), path.join(dir, "notes.sql"));
    expect(() => readMigrations(dir)).toThrow(/notes\.sql .* is no migration/);
  });

  it("refuse a file that comes in before one that has landed", async () => {
    const [first, ...rest] = readMigrations();
    if (!first) throw new Error("There are migrations.");
    const late = { ...first, number: 0, name: "0000-late.sql" };
    await expect(migrate(db.ownerUrl, [late, first, ...rest])).rejects.toThrow(/0000-late\.sql comes after/);
  });

  it("keep nothing of a file that fails half-way, and name the file and the line", async () => {
    const file = addMigration("half", "create table half_done (id integer);\nselect no_such_column;\n");
    await expect(migrate(db.ownerUrl, readMigrations(dir))).rejects.toThrow(`${file}, line 2`);
    expect(await tableExists("half_done")).toBe(false);
  });

  it("run each file once when two servers start at the same moment, and are refused by an older server after", async () => {
    const file = addMigration("once", "create table once (id integer); select pg_sleep(0.2);");
    expect(await pendingMigrations(db.appUrl, readMigrations(dir))).toEqual([file]);
    const runs = await Promise.all([1, 2, 3].map(() => migrate(db.ownerUrl, readMigrations(dir))));
    expect(runs.flat()).toEqual([file]);
    await expect(migrate(db.ownerUrl)).rejects.toThrow(
      new RegExp(`${file}, which this Layertrail does not know`),
    );
  });
});
