import { sql } from "kysely";
import type { Uuid } from "../domain/ids.ts";
import type { ChainEnd, ChainedAct } from "../ledger/check-chain.ts";
import type { EntryKey } from "../ledger/finding.ts";
import type { Tx } from "./db.ts";
import { walk } from "./walk.ts";

type Row = Omit<ChainedAct, "commandHash"> & { commandHash: Buffer };

/** One act with the hashes of its entries, in one row: 100 bytes of hashes travel where the entries would be kilobytes. */
const CHAINED_ACT = sql<Row>`
  select a.id, a.command, a.command_hash as "commandHash", a.by, a.device, a.device_seq as "deviceSeq",
    a.app_build as "appBuild", (extract(epoch from a.at) * 1000)::float8 as at, a.at_offset_min as "atOffsetMin",
    (extract(epoch from a.sent_at) * 1000)::float8 as "sentAt", a.entry_count as "entryCount", a.digest, a.position,
    a.prev, a.hash, (extract(epoch from a.recorded_at) * 1000)::float8 as "recordedAt", e."entriesThere",
    coalesce(e."lastN", 0) as "lastN", coalesce(e."entryHashes", '') as "entryHashes"
  from act a left join lateral (
    select count(*)::int as "entriesThere", max(n) as "lastN", string_agg(hash, '' order by n) as "entryHashes"
    from entry where act = a.id) e on true`;

/** Walks all acts by position, in batches, at one moment of the database. */
export function walkActs(tx: Tx): AsyncGenerator<readonly ChainedAct[]> {
  return walk<ChainedAct>(tx, "acts", sql`${CHAINED_ACT} order by a.position`, {
    batch: 4_000,
    isAhead: true,
  });
}

/** Gives the acts that wrote a subject's entries, by position, each with the end of the chain before it. */
export async function actsOfSubject(
  tx: Tx,
  subject: Uuid,
): Promise<readonly { readonly act: ChainedAct; readonly before: ChainEnd | undefined }[]> {
  const wrote = await tx.selectFrom("entry").select("act").where("subject", "=", subject).execute();
  return chainedActs(
    tx,
    wrote.map(({ act }) => act),
  );
}

/** Gives acts by their ids, by position, each with the end of the chain before it. */
export async function chainedActs(
  tx: Tx,
  ids: readonly string[],
): Promise<readonly { readonly act: ChainedAct; readonly before: ChainEnd | undefined }[]> {
  const acts =
    await sql<Row>`${CHAINED_ACT} where a.id = any(${[...new Set(ids)]}::uuid[]) order by a.position`.execute(
      tx,
    );
  const before = await sql<ChainEnd>`
    select position, hash, (extract(epoch from recorded_at) * 1000)::float8 as "recordedAt" from act
    where position = any(${acts.rows.map((act) => act.position - 1)}::bigint[])`.execute(tx);
  const byPosition = new Map(before.rows.map((end) => [end.position, end]));
  return acts.rows.map((act) => ({ act, before: byPosition.get(act.position - 1) }));
}

/** Reads the head of the ledger. Undefined when the database was not migrated. */
export async function readHead(tx: Tx): Promise<ChainEnd | undefined> {
  const { rows } = await sql<ChainEnd>`
    select position, hash, (extract(epoch from recorded_at) * 1000)::float8 as "recordedAt" from ledger_head`.execute(
    tx,
  );
  return rows[0];
}

/** Names the entries of an act, at most twenty, for a finding about it. */
export async function entriesOfAct(tx: Tx, act: Uuid): Promise<EntryKey[]> {
  const { rows } = await sql<EntryKey>`
    select subject, version from entry where act = ${act} order by n limit 20`.execute(tx);
  return rows;
}

/** Finds entries whose act is not there, at most `limit`. */
export async function entriesWithoutAct(tx: Tx, limit: number): Promise<(EntryKey & { act: Uuid })[]> {
  const { rows } = await sql<EntryKey & { act: Uuid }>`
    select subject, version, act from entry e where not exists (select from act a where a.id = e.act)
    order by subject, version limit ${limit}`.execute(tx);
  return rows;
}

/** Counts acts and entries as the database's own statistics have them: enough to show progress. */
export async function roughCounts(tx: Tx): Promise<{ readonly acts: number; readonly entries: number }> {
  const { rows } = await sql<{ acts: number; entries: number }>`
    select (select position from ledger_head) as acts,
      (select greatest(reltuples, 0)::bigint from pg_class where oid = 'entry'::regclass) as entries`.execute(
    tx,
  );
  return rows[0] ?? { acts: 0, entries: 0 };
}
