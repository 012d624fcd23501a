import { sql } from "kysely";
import type { Tx } from "./db.ts";
import { inChunks, type OnWritten } from "./in-chunks.ts";
import {
  PROJECTED_TABLES,
  type ProjectedRow,
  type ProjectedTable,
  type Projection,
} from "./projected-rows.ts";

/** A subject's rows before and after an act. */
export interface RowChange {
  readonly before: Projection;
  readonly after: Projection;
}

/** Rows that others lock must stay the same row: they are updated in place. Others are taken out and put in. */
function isAnchor(table: ProjectedTable): boolean {
  return PROJECTED_TABLES[table].length === 1 && PROJECTED_TABLES[table][0] === "id";
}

/**
 * Writes the difference between what the tables said and what they say now: first all that goes, then all that
 * changes, then all that comes, so that a number or a place in a shell can pass from one subject to another in one act.
 */
export async function writeProjections(
  tx: Tx,
  changes: readonly RowChange[],
  onWritten?: OnWritten,
): Promise<void> {
  const differences = tablesOf(changes).map((table) => ({ table, ...difference(table, changes) }));
  for (const { table, gone } of differences) if (gone.length > 0) await remove(tx, table, gone);
  for (const { table, changed } of differences) if (changed.length > 0) await update(tx, table, changed);
  for (const { table, fresh } of differences)
    await inChunks(fresh, onWritten, (rows) => insert(tx, table, rows));
}

function tablesOf(changes: readonly RowChange[]): ProjectedTable[] {
  const names = new Set<ProjectedTable>();
  for (const { before, after } of changes) {
    for (const name of [...Object.keys(before), ...Object.keys(after)]) names.add(name as ProjectedTable);
  }
  return [...names];
}

function difference(table: ProjectedTable, changes: readonly RowChange[]) {
  const gone: ProjectedRow[] = [];
  const changed: ProjectedRow[] = [];
  const fresh: ProjectedRow[] = [];
  for (const { before, after } of changes) {
    const was = byKey(table, before[table]);
    const is = byKey(table, after[table]);
    for (const [key, row] of was) {
      const now = is.get(key);
      if (!now) gone.push(row);
      else if (JSON.stringify(now) !== JSON.stringify(row)) {
        if (isAnchor(table)) changed.push(now);
        else {
          gone.push(row);
          fresh.push(now);
        }
      }
    }
    for (const [key, row] of is) if (!was.has(key)) fresh.push(row);
  }
  return { gone, changed, fresh };
}

function byKey(table: ProjectedTable, rows: readonly ProjectedRow[] = []): Map<string, ProjectedRow> {
  return new Map(
    rows.map((row) => [PROJECTED_TABLES[table].map((column) => String(row[column])).join("|"), row]),
  );
}

/** Rows of a table all have the same columns, so that each statement below is one text a table. */
function prepared(doing: string, table: ProjectedTable) {
  return sql.raw(`/* prepared: ${doing}-${table.replaceAll("_", "-")} */`);
}

function asRecords(table: ProjectedTable, rows: readonly ProjectedRow[]) {
  return sql`json_populate_recordset(null::${sql.table(table)}, ${JSON.stringify(rows)}::json)`;
}

async function remove(tx: Tx, table: ProjectedTable, rows: readonly ProjectedRow[]) {
  const same = PROJECTED_TABLES[table].map((column) => sql`t.${sql.ref(column)} = r.${sql.ref(column)}`);
  await sql`${prepared("remove", table)} delete from ${sql.table(table)} t using ${asRecords(table, rows)} r where ${sql.join(same, sql` and `)}`.execute(
    tx,
  );
}

async function insert(tx: Tx, table: ProjectedTable, rows: readonly ProjectedRow[]) {
  await sql`${prepared("insert", table)} insert into ${sql.table(table)} select * from ${asRecords(table, rows)}`.execute(
    tx,
  );
}

async function update(tx: Tx, table: ProjectedTable, rows: readonly ProjectedRow[]) {
  const columns = Object.keys(rows[0] ?? {}).filter((column) => column !== "id");
  const sets = columns.map((column) => sql`${sql.ref(column)} = r.${sql.ref(column)}`);
  await sql`${prepared("update", table)} update ${sql.table(table)} t set ${sql.join(sets)} from ${asRecords(table, rows)} r where t.id = r.id`.execute(
    tx,
  );
}
