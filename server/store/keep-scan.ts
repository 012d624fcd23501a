import { sql } from "kysely";
import type { AccountId, Uuid } from "../domain/ids.ts";
import type { ScanVia } from "../domain/scan-answer.ts";
import type { Db } from "./db.ts";

/** One scan with what it was answered, as it is kept. */
export interface ScanRecord {
  readonly at: Date;
  readonly by: AccountId;
  readonly device: string;
  readonly via: ScanVia;
  readonly mode: string;
  readonly text: string;
  /** The kind of the answer. */
  readonly names: string;
  readonly subject?: Uuid;
}

interface Waiting {
  readonly scan: ScanRecord;
  readonly kept: () => void;
  readonly failed: (reason: unknown) => void;
}
const queues = new WeakMap<Db, Waiting[]>();

/**
 * Keeps a scan. The answer at the bench need not wait for it: scans that come while one write is under way go together
 * in the next, and the write does not wait for the disk, since scans are no part of the ledger (a power cut may lose
 * the last half second of them). The promise settles when the row is in the table.
 */
export function keepScan(db: Db, scan: ScanRecord): Promise<void> {
  return new Promise((kept, failed) => {
    const queue = queues.get(db);
    if (queue) queue.push({ scan, kept, failed });
    else {
      const fresh = [{ scan, kept, failed }];
      queues.set(db, fresh);
      void writeAll(db, fresh);
    }
  });
}

async function writeAll(db: Db, queue: Waiting[]): Promise<void> {
  while (queue.length > 0) {
    const batch = queue.splice(0, 500);
    try {
      await insertScans(
        db,
        batch.map(({ scan }) => scan),
      );
      for (const { kept } of batch) kept();
    } catch (reason) {
      for (const { failed } of batch) failed(reason);
    }
  }
  queues.delete(db);
}

async function insertScans(db: Db, scans: readonly ScanRecord[]): Promise<void> {
  await sql`/* prepared: keep-scans */ with hurried as materialized (select set_config('synchronous_commit', 'off', true))
    insert into scan (at, by, device, via, mode, text, names, subject)
    select s.* from hurried cross join unnest(
      ${scans.map(({ at }) => at)}::timestamptz[], ${scans.map(({ by }) => by)}::uuid[],
      ${scans.map(({ device }) => device)}::text[], ${scans.map(({ via }) => via)}::text[],
      ${scans.map(({ mode }) => mode)}::text[], ${scans.map(({ text }) => text.slice(0, 400))}::text[],
      ${scans.map(({ names }) => names)}::text[], ${scans.map(({ subject }) => subject ?? null)}::uuid[]
    ) as s(at, by, device, via, mode, text, names, subject)`.execute(db);
}
