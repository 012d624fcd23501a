import { sql } from "kysely";
import type { Tx } from "./db.ts";
import { walk } from "./walk.ts";

const PACE = { batch: 2_000, isAhead: true };

/** Walks all acts by position, as lines of JSON. */
export async function* walkActLines(tx: Tx): AsyncGenerator<readonly string[]> {
  const query = sql`select to_jsonb(a)::text as line from act a order by position`;
  for await (const rows of walk<{ line: string }>(tx, "act_lines", query, PACE)) {
    yield rows.map(({ line }) => line);
  }
}

/** Walks all entries by subject and version with their texts, as lines of JSON; the bytes that were hashed in base64. */
export async function* walkEntryLines(tx: Tx): AsyncGenerator<readonly string[]> {
  const query = sql`
    select (jsonb_build_object('subject', subject, 'version', version, 'subject_kind', subject_kind, 'act', act,
        'n', n, 'kind', kind, 'bytes', translate(encode(bytes, 'base64'), E'\n', '')) ||
      coalesce((select jsonb_build_object('texts', jsonb_agg(jsonb_build_object(
          'name', t.name, 'salt', encode(t.salt, 'hex'), 'body', t.body) order by t.name))
        from entry_text t where t.subject = e.subject and t.version = e.version having count(*) > 0), '{}'))::text as line
    from entry e order by subject, version`;
  for await (const rows of walk<{ line: string }>(tx, "entry_lines", query, PACE)) {
    yield rows.map(({ line }) => line);
  }
}

/**
 * Puts acts in as they were, position and hash with them. Lines go to the database as they stand, so that no number
 * is read and written anew on the way.
 */
export async function insertActLines(tx: Tx, lines: readonly string[]): Promise<void> {
  await sql`insert into act select * from json_populate_recordset(null::act, ${asList(lines)}::json)`.execute(
    tx,
  );
}

/** Puts entries and their texts in, byte for byte. */
export async function insertEntryLines(tx: Tx, lines: readonly string[]): Promise<void> {
  await sql`insert into entry (subject, version, subject_kind, act, n, kind, bytes)
    select subject, version, subject_kind, act, n, kind, decode(bytes, 'base64')
    from json_to_recordset(${asList(lines)}::json) as e(
      subject uuid, version int, subject_kind text, act uuid, n int, kind text, bytes text)`.execute(tx);
  const withTexts = lines.filter((line) => line.includes('"texts"'));
  if (withTexts.length === 0) return;
  await sql`insert into entry_text (subject, version, name, salt, body)
    select e.subject, e.version, t.name, decode(t.salt, 'hex'), t.body
    from json_to_recordset(${asList(withTexts)}::json) as e(subject uuid, version int, texts json),
      json_to_recordset(e.texts) as t(name text, salt text, body text)`.execute(tx);
}

/** Lines of JSON as one JSON list. */
export function asList(lines: readonly string[]): string {
  return `[${lines.join(",")}]`;
}

/** Locks the head and tells whether the ledger is empty. Until the transaction ends nobody else writes an act. */
export async function lockEmptyLedger(tx: Tx): Promise<boolean> {
  const { rows } = await sql<{ position: number }>`select position from ledger_head for update`.execute(tx);
  const { rows: any } = await sql`select from act limit 1`.execute(tx);
  return rows[0]?.position === 0 && any.length === 0;
}

/** Makes the last act the head of the ledger. */
export async function headFromLastAct(tx: Tx): Promise<void> {
  await sql`update ledger_head h set position = a.position, hash = a.hash, recorded_at = a.recorded_at
    from (select * from act order by position desc limit 1) a`.execute(tx);
}
