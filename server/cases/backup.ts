import { NO_ACTS } from "../ledger/check-chain.ts";
import { walkActLines, walkEntryLines } from "../store/backup-ledger.ts";
import { BESIDE_TABLES, landedMigrations, walkBeside } from "../store/backup-tables.ts";
import type { Db, Tx } from "../store/db.ts";
import { atOneMoment } from "../store/snapshot.ts";
import { readHead, roughCounts } from "../store/walk-acts.ts";
import {
  BACKUP_FORMAT,
  type BackupEnd,
  type BackupHeader,
  LineTally,
  type Section,
} from "./backup-format.ts";
import type { OnProgress } from "./progress.ts";

export interface BackupOptions {
  readonly nowMs: number;
  /** Every scan with its answer; what was last seen when is told from them too. */
  readonly withScans: boolean;
  readonly onProgress?: OnProgress;
}

/** What a backup holds. */
export interface BackupMade {
  readonly position: number;
  readonly hash: string;
  readonly counts: Readonly<Record<string, number>>;
}

/**
 * Writes everything that the department has, at one moment of the database, as text that ends in whole lines:
 * acts and entries byte for byte, texts, people and their secrets as they are kept, files brought in, print runs,
 * viewings and scans. Tables that follow from entries are left out, since they are built again from them.
 */
export function backUp(
  db: Db,
  write: (text: string) => Promise<void>,
  options: BackupOptions,
): Promise<BackupMade> {
  return atOneMoment(db, async ({ reading, aside }) => {
    const head = (await readHead(aside)) ?? NO_ACTS;
    const tally = new LineTally();
    const put = async (lines: readonly string[]) => {
      for (const line of lines) tally.add(line);
      await write(`${lines.join("\n")}\n`);
    };
    const header: BackupHeader = {
      layertrail: "backup",
      format: BACKUP_FORMAT,
      madeAt: new Date(options.nowMs).toISOString(),
      schema: (await landedMigrations(aside)).at(-1) ?? "",
      position: head.position,
      hash: head.hash.toString("hex"),
    };
    await put([JSON.stringify(header)]);
    const totals = await roughCounts(aside);
    for (const [section, lines] of sections(reading, options.withScans)) {
      await put([JSON.stringify({ section })]);
      tally.count(section, 0);
      for await (const batch of lines) {
        await put(batch);
        tally.count(section, batch.length);
        const total = section === "act" ? totals.acts : totals.entries;
        if (section === "act" || section === "entry")
          options.onProgress?.({ phase: PHASES[section], done: tally.counts[section] ?? 0, total });
      }
    }
    const end: BackupEnd = { end: true, counts: tally.counts, sha256: tally.digest() };
    await write(`${JSON.stringify(end)}\n`);
    return { position: header.position, hash: header.hash, counts: tally.counts };
  });
}

const PHASES = { act: "acts", entry: "entries" } as const;

function sections(tx: Tx, withScans: boolean): (readonly [Section, AsyncGenerator<readonly string[]>])[] {
  const beside = BESIDE_TABLES.filter((table) => withScans || table !== "scan");
  return [
    ["act", walkActLines(tx)],
    ["entry", walkEntryLines(tx)],
    ...beside.map((table) => [table, walkBeside(tx, table)] as const),
  ];
}
