import fs from "node:fs";
import os from "node:os";
import path from "node:path";
import { openClient } from "./connect.ts";
import { startEmbedded } from "./embedded.ts";
import { migrate } from "./migrate.ts";
import { readSchema } from "./read-schema.ts";
import { writeListing, writeTypes } from "./write-schema.ts";

/** `npm run schema`: migrates an empty database and writes db/schema from what it then looks like. */
const dataDir = fs.mkdtempSync(path.join(os.tmpdir(), "layertrail-schema-"));
const database = await startEmbedded({ dataDir, settings: { fsync: "off" } });
try {
  await migrate(database.ownerUrl);
  const client = await openClient(database.ownerUrl);
  const tables = await readSchema(client).finally(() => client.end());
  const schemaDir = path.join(import.meta.dirname, "schema");
  fs.mkdirSync(schemaDir, { recursive: true });
  fs.writeFileSync(path.join(schemaDir, "database.ts"), writeTypes(tables));
  fs.writeFileSync(path.join(schemaDir, "schema.sql"), writeListing(tables));
} finally {
  await database.stop();
  fs.rmSync(dataDir, { recursive: true, force: true });
}
