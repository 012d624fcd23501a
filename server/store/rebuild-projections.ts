import { sql } from "kysely";
import type { Finding } from "../ledger/finding.ts";
import { checkEntries } from "./check-batch.ts";
import { ALL_PROJECTED } from "./compare-projections.ts";
import type { Tx } from "./db.ts";
import { walkSubjects } from "./walk-subjects.ts";

/**
 * Empties all projected tables and fills them again from the entries alone, with the projections that a check
 * compares them with. Gives what stood against it; the caller then leaves the transaction. Acts must be kept out
 * meanwhile, by the exclusive lock on the rules.
 */
export async function rebuildProjections(
  tx: Tx,
  onProgress: (entries: number) => void = () => {},
): Promise<readonly Finding[]> {
  for (const table of ALL_PROJECTED) await sql`delete from ${sql.table(table)}`.execute(tx);
  let entries = 0;
  for await (const batch of walkSubjects(tx, { batch: 4_000, isAhead: false })) {
    const { rows, findings } = checkEntries(batch);
    if (findings.length > 0) return findings;
    for (const [table, list] of rows) {
      if (list.length === 0) continue;
      await sql`insert into ${sql.table(table)}
        select * from json_populate_recordset(null::${sql.table(table)}, ${JSON.stringify(list)}::json)`.execute(
        tx,
      );
    }
    for (const subject of batch.subjects) entries += subject.entries.length;
    onProgress(entries);
  }
  return [];
}
