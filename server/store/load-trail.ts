import { sql } from "kysely";
import type { PieceId, TagId, Uuid } from "../domain/ids.ts";
import type { PieceEntry, Versioned } from "../domain/pieces/piece-entries.ts";
import type { TagEntry } from "../domain/tags/tag-entries.ts";
import type { KeptEntry, KeptText } from "../ledger/check-entry.ts";
import { readEntryBytes } from "../ledger/entry-bytes.ts";
import type { Tx } from "./db.ts";

/** An entry with the act that wrote it and its texts, as they stand in the ledger. */
export interface LoadedEntry extends KeptEntry {
  readonly subject: Uuid;
  readonly subjectKind: "piece" | "tag";
  readonly n: number;
  readonly act: Uuid;
  readonly position: number;
  readonly command: string;
  readonly recordedAt: Date;
  readonly by: Uuid;
  readonly device: string;
  readonly body: PieceEntry | TagEntry;
  readonly texts: readonly KeptText[];
}

/** Finds a position's act, or the head; undefined for a position that was not reached. */
export async function findPosition(
  tx: Tx,
  position: number,
): Promise<{ readonly position: number; readonly recordedAt: Date } | undefined> {
  const row = await tx
    .selectFrom("act")
    .select(["position", "recorded_at"])
    .where("position", "=", position)
    .executeTakeFirst();
  return row && { position: row.position, recordedAt: row.recorded_at };
}

/** Lists the tags that a piece carries or carried, by their ids. */
export async function tagsOf(tx: Tx, piece: PieceId): Promise<TagId[]> {
  const rows = await tx.selectFrom("tag").select("id").where("piece", "=", piece).orderBy("id").execute();
  return rows.map(({ id }) => id as TagId);
}

/**
 * Lists the layers whose entries name a shell: those that were fitted in it or compared with it by today's record, and
 * those whose entry about it was corrected away since.
 */
export async function layersNaming(tx: Tx, shell: PieceId): Promise<PieceId[]> {
  const { rows } = await sql<{ layer: PieceId }>`
    select layer from fitting where shell = ${shell}
    union select layer from by_eye where shell = ${shell}
    union select c.subject from entry c join entry o on o.subject = c.subject
        and o.version = (convert_from(c.bytes, 'UTF8')::json ->> 'corrects')::integer
      where c.kind = 'EntryCorrected' and c.subject <> ${shell}
        and position(${`"${shell}"`} in convert_from(o.bytes, 'UTF8')) > 0
    order by 1`.execute(tx);
  return rows.map(({ layer }) => layer);
}

interface EntryRow extends Omit<LoadedEntry, "body" | "texts"> {
  readonly texts: readonly { name: string; salt: string; body: string | null }[] | null;
}

/** Loads all entries of subjects up to a position, in the order in which they were recorded. */
export async function loadHistory(
  tx: Tx,
  subjects: readonly Uuid[],
  upTo: number | undefined,
): Promise<LoadedEntry[]> {
  const { rows } = await sql<EntryRow>`
    select e.subject, e.version, e.subject_kind as "subjectKind", e.kind, e.bytes, e.hash, e.n, e.act,
      a.position, a.command, a.recorded_at as "recordedAt", a.by, a.device,
      (select json_agg(json_build_object('name', t.name, 'salt', encode(t.salt, 'hex'), 'body', t.body) order by t.name)
       from entry_text t where t.subject = e.subject and t.version = e.version) as texts
    from entry e join act a on a.id = e.act
    where e.subject = any(${subjects}::uuid[]) and e.subject_kind in ('piece', 'tag') and a.position <= ${upTo ?? Number.MAX_SAFE_INTEGER}
    order by a.position, e.n`.execute(tx);
  return rows.map(({ texts, ...row }) => ({
    ...row,
    body: readEntryBytes<"piece" | "tag">(row.bytes),
    texts: (texts ?? []).map(({ name, salt, body }) => ({ name, salt: Buffer.from(salt, "hex"), body })),
  }));
}

/** Picks one subject's entries out of loaded ones, for folding. */
export function entriesOfSubject<Entry extends PieceEntry | TagEntry>(
  loaded: readonly LoadedEntry[],
  subject: Uuid,
): Versioned<Entry>[] {
  return loaded
    .filter((entry) => entry.subject === subject)
    .map(({ version, body }) => ({ version, entry: body as Entry }));
}
