import crypto from "node:crypto";
import fs from "node:fs";
import path from "node:path";
import { StartTrouble } from "./start-trouble.ts";

export interface Migration {
  readonly number: number;
  /** The file's name, `0001-ledger.sql`. */
  readonly name: string;
  readonly sql: string;
  /** SHA-256 of the text with line ends as \n, in hexadecimal. */
  readonly checksum: string;
}

export const MIGRATIONS_DIR = path.join(import.meta.dirname, "migrations");

/** Reads the numbered SQL files of a folder in order. A number twice or another kind of file is refused by name. */
export function readMigrations(dir: string = MIGRATIONS_DIR): readonly Migration[] {
  const migrations: Migration[] = [];
  for (const name of fs.readdirSync(dir).sort()) {
    const number = Number(/^(\d{4})-[a-z0-9]+(?:-[a-z0-9]+)*\.sql$/.exec(name)?.[1]);
    if (Number.isNaN(number) || number === migrations.at(-1)?.number) {
      throw new StartTrouble(
        "migration-refused",
        `${name} in db/migrations is no migration: the files are 0001-name.sql and on, each with a number of its own.`,
      );
    }
    const sql = fs.readFileSync(path.join(dir, name), "utf8").replaceAll("\r\n", "\n");
    migrations.push({ number, name, sql, checksum: crypto.createHash("sha256").update(sql).digest("hex") });
  }
  return migrations;
}
