import { type RawBuilder, sql } from "kysely";
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

/** One statement on one table. */
export interface ProjectionWrite {
  readonly doing: "remove" | "update" | "insert";
  readonly table: ProjectedTable;
  readonly rows: readonly ProjectedRow[];
}

/**
 * Tells how to get from what the tables said to what they say now: first all that goes, then all that changes, then
 * all that comes, so that a number or a place in a shell can pass from one subject to another in one act.
 */
export function projectionWrites(changes: readonly RowChange[]): ProjectionWrite[] {
  const differences = tablesOf(changes).map((table) => ({ table, ...difference(table, changes) }));
  const all: ProjectionWrite[] = [
    ...differences.map(({ table, gone }) => ({ doing: "remove", table, rows: gone }) as const),
    ...differences.map(({ table, changed }) => ({ doing: "update", table, rows: changed }) as const),
    ...differences.map(({ table, fresh }) => ({ doing: "insert", table, rows: fresh }) as const),
  ];
  return all.filter(({ rows }) => rows.length > 0);
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

/** The statement that does it, once the condition holds. Rows of a table all have the same columns. */
export function writeRows(
  { doing, table, rows }: ProjectionWrite,
  areDone: RawBuilder<boolean> = sql`true`,
): RawBuilder<unknown> {
  const name = sql.table(table);
  const records = sql`json_populate_recordset(null::${name}, ${JSON.stringify(rows)}::json) r`;
  switch (doing) {
    case "remove": {
      const same = PROJECTED_TABLES[table].map((column) => sql`t.${sql.ref(column)} = r.${sql.ref(column)}`);
      return sql`delete from ${name} t using ${records} where ${sql.join([...same, areDone], sql` and `)}`;
    }
    case "update": {
      const columns = Object.keys(rows[0] ?? {}).filter((column) => column !== "id");
      const sets = columns.map((column) => sql`${sql.ref(column)} = r.${sql.ref(column)}`);
      return sql`update ${name} t set ${sql.join(sets)} from ${records} where t.id = r.id and ${areDone}`;
    }
    case "insert":
      return sql`insert into ${name} select r.* from ${records} where ${areDone}`;
    default:
      return doing satisfies never;
  }
}
