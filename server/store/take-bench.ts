import { sql } from "kysely";
import type { Rulebook } from "../domain/bench/rulebook.ts";
import type { Holder } from "../domain/custody/holder.ts";
import type { PieceId } from "../domain/ids.ts";
import type { PieceEntry, Versioned } from "../domain/pieces/piece-entries.ts";
import type { PieceState } from "../domain/pieces/piece-state.ts";
import type { Instant } from "../domain/time.ts";
import { type EntryBody, readEntryBody } from "../ledger/entry-bytes.ts";
import { type ActScope, foldTaken, keepTaken } from "./act-scope.ts";
import { someIds, type Tx } from "./db.ts";
import { knownAmong, strangersAmong } from "./known-holders.ts";
import { RULES_ABOUT_OWN, type RulesRow, rulebookFrom } from "./load-rulebook.ts";

/** What a decision at the bench rests on. */
export interface BenchTaken {
  readonly pieces: ReadonlyMap<PieceId, PieceState>;
  readonly book: Rulebook;
  /** Those of the named holders that are not on record. */
  readonly strangers: readonly Holder[];
}

interface BenchRow extends RulesRow {
  readonly known: readonly string[] | null;
  /** Subject, version and body of each entry, those of a subject oldest first; the text of a JSON array. */
  readonly entries: string;
}

/**
 * Shares the rules and locks pieces with all that is fitted in or around them at a moment, then reads in one question
 * their entries, the rules about them and which holders are on record.
 */
export async function takeBenchPieces(
  scope: ActScope,
  pieces: readonly PieceId[],
  at: Instant,
  holders: readonly Holder[],
): Promise<BenchTaken> {
  const { rows } = await sql<{ taken: PieceId[] }>`/* prepared: take-pieces */
    select take_pieces(${pieces}::uuid[], ${new Date(at)}::timestamptz) as taken`.execute(scope.tx);
  const taken = rows[0]?.taken ?? [];
  return benchFrom(scope, taken, await readBench(scope.tx, taken, holders), holders);
}

function benchFrom(
  scope: ActScope,
  taken: readonly PieceId[],
  row: BenchRow,
  holders: readonly Holder[],
): BenchTaken {
  const entries = new Map<PieceId, Versioned<PieceEntry>[]>(taken.map((id) => [id, []]));
  for (const [id, version, body] of JSON.parse(row.entries) as [PieceId, number, EntryBody][]) {
    entries.get(id)?.push({ version, entry: readEntryBody<"piece">(body) });
  }
  keepTaken(scope, "piece", entries);
  const { modelOf, ...book } = rulebookFrom(row);
  const pieces = new Map<PieceId, PieceState>();
  for (const [id, state] of foldTaken(scope, taken)) {
    // A model described after its pieces came in counts for them from that moment on.
    const model = state.model ?? modelOf(state);
    pieces.set(id, model ? { ...state, model } : state);
  }
  return { pieces, book, strangers: strangersAmong(holders, row.known ?? []) };
}

/** Bodies are JSON already and are put together as they are: to write them anew costs more than to read them. */
async function readBench(tx: Tx, taken: readonly PieceId[], holders: readonly Holder[]): Promise<BenchRow> {
  const { rows } = await sql<BenchRow>`/* prepared: read-bench */
    with own as materialized (select id, kind, model, maker from piece where id = any(${someIds(taken)}))
    select ${sql.raw(RULES_ABOUT_OWN)},
      (select json_agg(h.id) from (${knownAmong(holders)}) h) as known,
      (select '[' || coalesce(string_agg(
          '["' || e.subject || '",' || e.version || ',' || convert_from(e.bytes, 'UTF8') || ']', ','
        order by e.version), '') || ']' from own join entry e on e.subject = own.id) as entries`.execute(tx);
  const [row] = rows;
  if (!row) throw new Error("A question without a table behind it gave no row.");
  return row;
}
