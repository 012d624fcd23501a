import { createHash } from "node:crypto";
import { BESIDE_TABLES } from "../store/backup-tables.ts";

/**
 * A backup is lines of JSON, each ended by a line feed: a header; then sections, each begun by a line with its name and
 * holding a row a line; then an end line with the count of each section and the SHA-256 of all bytes before it.
 */
export interface BackupHeader {
  readonly layertrail: "backup";
  readonly format: number;
  readonly madeAt: string;
  /** The last migration that the database had. */
  readonly schema: string;
  /** The last act, and the hash that seals the ledger up to it. */
  readonly position: number;
  readonly hash: string;
}
export interface BackupEnd {
  readonly end: true;
  readonly counts: Readonly<Record<string, number>>;
  readonly sha256: string;
}

export const BACKUP_FORMAT = 1;
export const SECTIONS = ["act", "entry", ...BESIDE_TABLES] as const;
export type Section = (typeof SECTIONS)[number];

/** Counts lines and hashes them as they are written or read. */
export class LineTally {
  readonly counts: Record<string, number> = {};
  private readonly hash = createHash("sha256");

  add(line: string): void {
    this.hash.update(line);
    this.hash.update("\n");
  }

  count(section: Section, rows: number): void {
    this.counts[section] = (this.counts[section] ?? 0) + rows;
  }

  digest(): string {
    return this.hash.digest("hex");
  }
}
