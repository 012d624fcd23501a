import { sql } from "kysely";
import type { Uuid } from "../domain/ids.ts";
import type { Versioned } from "../domain/pieces/piece-entries.ts";
import type { EntriesOf, SubjectKind } from "../domain/subjects.ts";
import { readEntryBytes } from "../ledger/entry-bytes.ts";
import { someIds, type Tx } from "./db.ts";

export type LoadedEntries<Kind extends SubjectKind> = ReadonlyMap<
  Uuid,
  readonly Versioned<EntriesOf[Kind]>[]
>;

/** The projected table whose row stands for a subject and is locked for it. Policy has none: its lock is the rules'. */
const ANCHORS: Readonly<Partial<Record<SubjectKind, string>>> = {
  piece: "piece",
  tag: "tag",
  place: "place",
  member: "member",
  provider: "provider",
  outside: "outside",
  kind: "kind",
  model: "model",
  acceptance: "acceptance",
  account: "account",
  load: "load",
  machine: "machine",
  "contamination-event": "contamination_event",
};

/**
 * Locks subjects in the order of their ids, so that two acts on the same ones wait for each other and never cross.
 * Locks projections, never entries. Subjects that have no row yet are left out; their keys guard them.
 */
export async function lockSubjects(tx: Tx, kind: SubjectKind, ids: readonly Uuid[]): Promise<void> {
  const table = ANCHORS[kind];
  if (!table || ids.length === 0) return;
  await sql`${sql.raw(`/* prepared: lock-${table} */`)}
    select id from ${sql.table(table)} where id = any(${someIds(ids)}) order by id for update`.execute(tx);
}

/** Reads all entries of subjects, oldest first. A subject without entries is in the map with an empty list. */
export async function loadEntries<Kind extends SubjectKind>(
  tx: Tx,
  kind: Kind,
  ids: readonly Uuid[],
): Promise<LoadedEntries<Kind>> {
  const loaded = new Map<Uuid, Versioned<EntriesOf[Kind]>[]>(ids.map((id) => [id, []]));
  if (ids.length === 0) return loaded;
  const found = await sql<{ subject: Uuid; version: number; bytes: Buffer }>`/* prepared: load-entries */
    select subject, version, bytes from entry
    where subject = any(${someIds([...loaded.keys()])}) and subject_kind = ${kind}
    order by subject, version`.execute(tx);
  for (const row of found.rows) {
    loaded.get(row.subject)?.push({ version: row.version, entry: readEntryBytes<Kind>(row.bytes) });
  }
  return loaded;
}
