import { sql } from "kysely";
import type { Tx } from "./db.ts";

/**
 * Gives the next receipt number, counted on without a gap: P-000123. Two that draw the same one at a time meet on the
 * key, and the later act is decided anew. An entry of found property is never taken back, so no number comes twice.
 */
export async function nextReceipt(tx: Tx): Promise<string> {
  const { rows } = await sql<{ next: string }>`
    select 'P-' || lpad((coalesce(max(substr(receipt, 3)::int), 0) + 1)::text, 6, '0') as next
    from found_property`.execute(tx);
  return rows[0]?.next ?? "P-000001";
}
