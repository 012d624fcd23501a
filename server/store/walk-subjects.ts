import { sql } from "kysely";
import type { Uuid } from "../domain/ids.ts";
import type { KeptEntry, KeptText } from "../ledger/check-entry.ts";
import type { Tx } from "./db.ts";
import { type Pace, walk } from "./walk.ts";

/** All entries of one subject, oldest first. */
export interface KeptSubject {
  readonly id: Uuid;
  readonly entries: readonly EntryWithTexts[];
}
export interface EntryWithTexts extends KeptEntry {
  readonly subject: Uuid;
  readonly act: Uuid;
  readonly texts: readonly KeptText[];
}

/** Subjects in the order of their ids. Together the batches of a walk cover all ids there can be, without overlap. */
export interface SubjectBatch {
  readonly subjects: readonly KeptSubject[];
  readonly range: SubjectRange;
}

/** From an id on, to before another or through it; undefined for no bound. */
export interface SubjectRange {
  readonly from: Uuid | undefined;
  readonly before?: Uuid | undefined;
  readonly through?: Uuid;
}

interface Row extends KeptEntry {
  readonly subject: Uuid;
  readonly act: Uuid;
  readonly texts:
    | readonly { readonly name: string; readonly salt: string; readonly body: string | null }[]
    | null;
}

/** Few entries have a text, so that asking for each by its key costs less than a join of the whole tables. */
const ENTRY_WITH_TEXTS = sql`
  select subject, version, subject_kind as "subjectKind", act, kind, bytes, hash,
    (select json_agg(json_build_object('name', t.name, 'salt', encode(t.salt, 'hex'), 'body', t.body) order by t.name)
     from entry_text t where t.subject = e.subject and t.version = e.version) as texts
  from entry e`;

const FAST: Pace = { batch: 4_000, isAhead: true };

/** Walks all entries by subject and version, a batch of whole subjects at a time. */
export async function* walkSubjects(tx: Tx, pace = FAST): AsyncGenerator<SubjectBatch> {
  const entries = walk<Row>(tx, "entries", sql`${ENTRY_WITH_TEXTS} order by subject, version`, pace);
  let from: Uuid | undefined;
  let held: EntryWithTexts[] = [];
  for await (const rows of entries) {
    for (const row of rows) held.push(entryFromRow(row));
    const lastSubject = held.at(-1)?.subject;
    const whole = held.findLastIndex((entry) => entry.subject !== lastSubject) + 1;
    if (whole === 0 || lastSubject === undefined) continue;
    yield { subjects: bySubject(held.slice(0, whole)), range: { from, before: lastSubject } };
    from = lastSubject;
    held = held.slice(whole);
  }
  yield { subjects: bySubject(held), range: { from, before: undefined } };
}

/** Reads all entries of one subject. */
export async function keptSubject(tx: Tx, subject: Uuid): Promise<KeptSubject> {
  const { rows } = await sql<Row>`${ENTRY_WITH_TEXTS} where subject = ${subject} order by version`.execute(
    tx,
  );
  return { id: subject, entries: rows.map(entryFromRow) };
}

function entryFromRow({ texts, ...row }: Row): EntryWithTexts {
  return { ...row, texts: texts?.map((text) => ({ ...text, salt: Buffer.from(text.salt, "hex") })) ?? [] };
}

function bySubject(entries: readonly EntryWithTexts[]): KeptSubject[] {
  return [...Map.groupBy(entries, (entry) => entry.subject)].map(([id, list]) => ({ id, entries: list }));
}

/** The condition that a column of ids lies in a range. */
export function inRange(column: string, { from, before, through }: SubjectRange) {
  const bounds = [
    ...(from === undefined ? [] : [sql`${sql.ref(column)} >= ${from}`]),
    ...(before === undefined ? [] : [sql`${sql.ref(column)} < ${before}`]),
    ...(through === undefined ? [] : [sql`${sql.ref(column)} <= ${through}`]),
  ];
  return bounds.length === 0 ? sql`true` : sql.join(bounds, sql` and `);
}
