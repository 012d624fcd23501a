import fs from "node:fs";
import path from "node:path";
import { expect, test } from "vitest";
import { openClient } from "../../db/connect.ts";
import { readSchema } from "../../db/read-schema.ts";
import { writeListing, writeTypes } from "../../db/write-schema.ts";
import { useTestDatabase } from "../kit/test-database.ts";

const db = useTestDatabase();
const SCHEMA_DIR = path.join(import.meta.dirname, "../../db/schema");

async function tables() {
  const client = await openClient(db.ownerUrl);
  return readSchema(client).finally(() => client.end());
}

function committed(name: string): string {
  return fs.readFileSync(path.join(SCHEMA_DIR, name), "utf8");
}

test("the types in db/schema are those of the migrated database (else: npm run schema)", async () => {
  expect(committed("database.ts")).toBe(writeTypes(await tables()));
});

test("the listing in db/schema is that of the migrated database (else: npm run schema)", async () => {
  expect(committed("schema.sql")).toBe(writeListing(await tables()));
});

test("the application may only add to and read act and entry", async () => {
  const grants = (await tables())
    .filter((table) => table.name === "act" || table.name === "entry")
    .map((table) => table.grants);
  expect(grants).toEqual([["layertrail_app: insert, select"], ["layertrail_app: insert, select"]]);
});
