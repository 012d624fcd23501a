import { type RawBuilder, sql } from "kysely";
import type { Uuid } from "../domain/ids.ts";
import type { NewEntry, SubjectKind } from "../domain/subjects.ts";
import type { Instant } from "../domain/time.ts";
import { sha256 } from "../ledger/canonical.ts";
import { type ActHeader, actDigest } from "../ledger/chain.ts";
import { entryBytes, type SaltedText, saltTexts } from "../ledger/entry-bytes.ts";
import { type ChainedSteps, NO_STEPS } from "./chained-steps.ts";
import type { Db, Tx } from "./db.ts";

/** What one act wrote, as it stands in the ledger: the same for the first sending and for every repetition. */
export interface WrittenAct {
  readonly id: Uuid;
  readonly position: number;
  readonly at: Instant;
  readonly recordedAt: Instant;
  readonly entries: readonly {
    readonly subjectKind: SubjectKind;
    readonly subject: Uuid;
    readonly version: number;
    readonly kind: string;
  }[];
}

/** An entry with the version that it gets among the entries of its subject. */
export interface PlacedEntry {
  readonly draft: NewEntry;
  readonly version: number;
}

/** Entries as they go into the ledger: their bytes with the hashes of these, and their texts with the salts. */
export interface SealedEntries {
  readonly placed: readonly PlacedEntry[];
  readonly bytes: readonly Buffer[];
  readonly hashes: readonly Buffer[];
  readonly texts: readonly (SaltedText & { readonly subject: Uuid; readonly version: number })[];
}

/** Writes out the canonical bytes of entries and draws the salts of their texts. */
export function sealEntries(placed: readonly PlacedEntry[]): SealedEntries {
  const bytes: Buffer[] = [];
  const texts: SealedEntries["texts"][number][] = [];
  for (const { draft, version } of placed) {
    const { subjectKind: kind, subject } = draft;
    const salted = saltTexts(draft.texts ?? {});
    bytes.push(entryBytes(draft.entry, { kind, id: subject, version }, salted));
    for (const text of salted) texts.push({ subject, version, ...text });
  }
  return { placed, bytes, hashes: bytes.map((body) => sha256(body)), texts };
}

/**
 * The statement that writes entries, from the one at `start` on. The act row comes after them, at its place in the
 * chain; the foreign key is checked at commit.
 */
export function insertEntries(
  act: string,
  { placed, bytes }: Pick<SealedEntries, "placed" | "bytes">,
  start: number,
): RawBuilder<unknown> {
  return sql`insert into entry (subject, version, subject_kind, act, n, kind, bytes)
    select u.subject, u.version, u.subject_kind, ${act}::uuid, u.n, u.kind, u.bytes from unnest(
      ${placed.map(({ draft }) => draft.subject)}::uuid[], ${placed.map(({ version }) => version)}::int[],
      ${placed.map(({ draft }) => draft.subjectKind)}::text[], ${placed.map((_, index) => start + index + 1)}::int[],
      ${placed.map(({ draft }) => draft.entry.kind)}::text[], ${bytes}::bytea[])
      as u(subject, version, subject_kind, n, kind, bytes)`;
}

/** As arrays and not as a list of values: a file of 20,000 notes would have more values than a statement takes. */
export function insertTexts(texts: SealedEntries["texts"]): RawBuilder<unknown> {
  return sql`insert into entry_text (subject, version, name, salt, body) select u.* from unnest(
    ${texts.map(({ subject }) => subject)}::uuid[], ${texts.map(({ version }) => version)}::int[],
    ${texts.map(({ name }) => name)}::text[], ${texts.map(({ salt }) => salt)}::bytea[],
    ${texts.map(({ body }) => body)}::text[]) as u(subject, version, name, salt, body)`;
}

/** Where an act stands in the chain. */
export interface Linked {
  readonly position: number;
  readonly recorded_at: Date;
}

/**
 * The statement that puts an act at the end of the chain: locks the head, takes the next position without a gap, and
 * hashes over the hash before it. `recorded_at` is the server's clock and never goes back. The last step of every act,
 * since the head is held from here to the commit: `steps` are parts of the same statement that it waits for.
 */
export function linkAct(
  act: ActHeader,
  entryHashes: readonly Buffer[],
  nowMs: number,
  steps: ChainedSteps = NO_STEPS,
): RawBuilder<Linked> {
  const digest = actDigest(act, entryHashes);
  return sql<Linked>`with ${steps.parts} head as materialized (
      select position + 1 as position, hash as prev,
        greatest(recorded_at, ${new Date(nowMs)}::timestamptz) as recorded_at
      from ledger_head where ${steps.areDone} for update
    ), link as materialized (
      select *, sha256(prev || int8send(position) || ${digest}::bytea
        || int8send((extract(epoch from recorded_at) * 1000)::bigint)) as hash from head
    ), moved as (
      update ledger_head h set position = l.position, hash = l.hash, recorded_at = l.recorded_at from link l
    )
    insert into act (id, command, command_hash, by, device, device_seq, app_build, at, at_offset_min, sent_at,
      entry_count, digest, position, prev, hash, recorded_at)
    select ${act.id}::uuid, ${act.command}, ${act.commandHash}, ${act.by}::uuid, ${act.device}, ${act.deviceSeq},
      ${act.appBuild}, ${new Date(act.at)}, ${act.atOffsetMin}, ${new Date(act.sentAt)}, ${entryHashes.length},
      ${digest}, position, prev, hash, recorded_at from link
    returning position, recorded_at`;
}

export interface KnownAct extends WrittenAct {
  readonly by: string;
  readonly commandHash: Buffer;
}

/** Finds an act by its id, with what it wrote and the command that it was. Undefined when there is none. */
export async function findAct(tx: Db | Tx, id: string): Promise<KnownAct | undefined> {
  const act = await tx.selectFrom("act").selectAll().where("id", "=", id).executeTakeFirst();
  if (!act) return undefined;
  const entries = await tx
    .selectFrom("entry")
    .select(["subject_kind", "subject", "version", "kind"])
    .where("act", "=", id)
    .orderBy("n")
    .execute();
  return {
    id: act.id as Uuid,
    position: Number(act.position),
    at: act.at.getTime() as Instant,
    recordedAt: act.recorded_at.getTime() as Instant,
    by: act.by,
    commandHash: act.command_hash,
    entries: entries.map((row) => ({
      subjectKind: row.subject_kind as SubjectKind,
      subject: row.subject as Uuid,
      version: row.version,
      kind: row.kind,
    })),
  };
}
