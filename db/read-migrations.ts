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

/** Reads the numbered SQL files of a folder in order. A gap, a number twice or another kind of file is refused by name. */
export function readMigrations(dir: string = MIGRATIONS_DIR): readonly Migration[] {
  const names = fs.readdirSync(dir).sort();
  return names.map((name, index) => {
    const parts = /^(\d{4})-[a-z0-9]+(?:-[a-z0-9]+)*\.sql$/.exec(name);
    if (!parts || Number(parts[1]) !== index + 1) {
      throw new StartTrouble(
        "migration-refused",
        `${name} in db/migrations is not the migration with number ${index + 1}: files are 0001-name.sql and on, without a gap.`,
      );
    }
    const sql = fs.readFileSync(path.join(dir, name), "utf8").replaceAll("\r\n", "\n");
    return { number: index + 1, name, sql, checksum: crypto.createHash("sha256").update(sql).digest("hex") };
  });
}
