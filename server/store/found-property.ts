import { sql } from "kysely";
import type { FoundPropertyView } from "../domain/cleaning/machine-view.ts";
import type { PieceId } from "../domain/ids.ts";
import type { Db, Tx } from "./db.ts";
import { wireInstant } from "./piece-from-row.ts";

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

interface PropertyRow {
  readonly receipt: string;
  readonly piece: PieceId;
  readonly kind: string | null;
  readonly number: string | null;
  readonly what: string | null;
  readonly found_at: Date;
  readonly given_back_at: Date | null;
  readonly given_back_to: string | null;
}

/** Lists what was found in gear, what is still kept first, newest first. */
export async function listFoundProperty(db: Db, limit: number): Promise<readonly FoundPropertyView[]> {
  const { rows } = await sql<PropertyRow>`
    select f.receipt, f.piece, k.name as kind, (select t.number from tag t where t.piece = f.piece and t.state = 'attached'
        order by t.position, t.number limit 1) as number,
      x.body as what, f.found_at, f.given_back_at, coalesce(n.name, 'member ' || m.number) as given_back_to
    from found_property f join piece p on p.id = f.piece left join kind k on k.code = p.kind
      left join entry_text x on x.subject = f.piece and x.version = f.version and x.name = 'what'
      left join member m on m.id = f.given_back_to left join person n on n.id = f.given_back_to
    order by f.given_back_at is not null, f.receipt desc limit ${limit}`.execute(db);
  return rows.map((row) => ({
    receipt: row.receipt,
    piece: row.piece,
    kind: row.kind ?? "Piece",
    ...(row.number ? { number: row.number } : {}),
    what: row.what ?? "",
    foundAt: wireInstant(row.found_at),
    ...(row.given_back_at ? { givenBackAt: wireInstant(row.given_back_at) } : {}),
    ...(row.given_back_to ? { givenBackTo: row.given_back_to } : {}),
  }));
}
