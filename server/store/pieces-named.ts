import { sql } from "kysely";
import type { PieceId } from "../domain/ids.ts";
import type { Named } from "../domain/piece-view.ts";
import type { TagNumber } from "../domain/tags/tag-number.ts";
import type { Db, Tx } from "./db.ts";
import { askNames, nameHolder, namesFromRows } from "./names.ts";
import { holderFromRow } from "./piece-from-row.ts";

/** What a number names, with the piece that it opens in a line: its title and where it is. */
export interface NumberNamed {
  readonly number: TagNumber;
  readonly names: "tag" | "place" | "member" | "badge" | "action";
  readonly piece?: PieceInALine;
}
export interface PieceInALine {
  readonly id: PieceId;
  readonly title: string;
  readonly where: Named;
}
interface LineRow {
  readonly id: string | null;
  readonly kind: string | null;
  readonly kind_name: string | null;
  readonly size: string | null;
  readonly holder_kind: string;
  readonly holder: string | null;
}

/** Tells which of some numbers the register knows, and what they name. */
export async function findNumbers(db: Db | Tx, numbers: readonly TagNumber[]): Promise<NumberNamed[]> {
  const { rows } = await sql<LineRow & { number: TagNumber; names: NumberNamed["names"] }>`
    select n.number, n.names, p.id, p.kind, k.name as kind_name, p.size, p.holder_kind, p.holder
    from numbered n left join tag t on t.id = n.subject and n.names = 'tag' left join piece p on p.id = t.piece
      left join kind k on k.code = p.kind
    where n.number = any(${numbers}::text[])`.execute(db);
  const lines = await linesFromRows(db, rows);
  return rows.map(({ number, names, id }) => {
    const piece = id ? lines.get(id) : undefined;
    return { number, names, ...(piece ? { piece } : {}) };
  });
}

/** Tells of a piece in a line. */
export async function findPieceLine(db: Db | Tx, piece: PieceId): Promise<PieceInALine | undefined> {
  const { rows } =
    await sql<LineRow>`select p.id, p.kind, k.name as kind_name, p.size, p.holder_kind, p.holder
    from piece p left join kind k on k.code = p.kind where p.id = ${piece}`.execute(db);
  return (await linesFromRows(db, rows)).get(piece);
}

async function linesFromRows(
  db: Db | Tx,
  rows: readonly LineRow[],
): Promise<ReadonlyMap<string, PieceInALine>> {
  const names = namesFromRows(
    await askNames(
      db,
      rows.flatMap(({ holder }) => holder ?? []),
    ),
  );
  return new Map(
    rows.flatMap((row) => {
      if (!row.id) return [];
      const title = [row.kind_name ?? row.kind, row.size].filter((part) => part !== null).join(", ");
      const where = nameHolder(holderFromRow(row), names);
      return [[row.id, { id: row.id as PieceId, title, where }] as const];
    }),
  );
}
