import { sql } from "kysely";
import type { Uuid } from "../domain/ids.ts";
import type { Finding } from "../ledger/finding.ts";
import type { Tx } from "./db.ts";
import {
  PROJECTED_TABLES,
  type ProjectedRow,
  type ProjectedTable,
  SUBJECT_COLUMN,
} from "./projected-rows.ts";
import { inRange, type SubjectRange } from "./walk-subjects.ts";

export const ALL_PROJECTED = Object.keys(PROJECTED_TABLES) as ProjectedTable[];

interface Difference {
  readonly was: Readonly<Record<string, unknown>> | null;
  readonly should: Readonly<Record<string, unknown>> | null;
}

/**
 * Compares the rows that a table has for a range of subjects with those that it should have. The database compares,
 * so that values are told apart by its own types, to the microsecond and without regard to how they are written;
 * only what differs comes back. Rows of the subjects in `except` are left alone.
 */
export async function compareTable(
  tx: Tx,
  table: ProjectedTable,
  should: readonly ProjectedRow[],
  range: SubjectRange,
  except: readonly Uuid[] = [],
): Promise<Finding[]> {
  const key = PROJECTED_TABLES[table];
  const sameKey = sql.join(
    key.map((column) => sql`w.${sql.ref(column)} = s.${sql.ref(column)}`),
    sql` and `,
  );
  const subject = sql.ref(SUBJECT_COLUMN[table]);
  const inSight = sql`${inRange(SUBJECT_COLUMN[table], range)} and ${subject} <> all(${except}::uuid[])`;
  const { rows } = await sql<Difference>`
    select to_jsonb(w) as was, to_jsonb(s) as should
    from (select * from ${sql.table(table)} where ${inSight}) w
    full join json_populate_recordset(null::${sql.table(table)}, ${JSON.stringify(should)}::json) s on ${sameKey}
    where w is distinct from s limit 1000`.execute(tx);
  return rows.flatMap((difference) => findingsOf(table, difference));
}

function findingsOf(table: ProjectedTable, { was, should }: Difference): Finding[] {
  const row = was ?? should ?? {};
  const subject = row[SUBJECT_COLUMN[table]] as Uuid;
  const own = PROJECTED_TABLES[table].filter((column) => column !== SUBJECT_COLUMN[table]);
  const key = { table, subject, row: own.map((column) => `${column}=${String(row[column])}`).join(" ") };
  if (!should) return [{ code: "row-extra", ...key }];
  if (!was) return [{ code: "row-missing", ...key }];
  return Object.keys(should)
    .filter((column) => JSON.stringify(was[column]) !== JSON.stringify(should[column]))
    .map((column) => ({
      code: "cell-differs",
      ...key,
      column,
      was: JSON.stringify(was[column]),
      should: JSON.stringify(should[column]),
    }));
}
