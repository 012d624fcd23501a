import { sql } from "kysely";
import type { Finding } from "../ledger/finding.ts";
import { ALL_PROJECTED, compareTable } from "./compare-projections.ts";
import type { Tx } from "./db.ts";
import { checkSubject, isFinding, projectKept } from "./project-kept.ts";
import type { ProjectedRow, ProjectedTable, Projection } from "./projected-rows.ts";
import type { KeptSubject, SubjectBatch } from "./walk-subjects.ts";

/** What a batch of subjects should have in each table, and what was found on the way. */
export interface CheckedBatch extends SubjectBatch {
  readonly findings: readonly Finding[];
  readonly rows: ReadonlyMap<ProjectedTable, readonly ProjectedRow[]>;
  /** Subjects from whose entries no rows follow. */
  readonly unclear: readonly KeptSubject[];
}

/** Checks the entries of a batch and computes its rows. Asks the database nothing. */
export function checkEntries(batch: SubjectBatch): CheckedBatch {
  const findings: Finding[] = [];
  const unclear: KeptSubject[] = [];
  const rows = new Map<ProjectedTable, ProjectedRow[]>(ALL_PROJECTED.map((table) => [table, []]));
  for (const subject of batch.subjects) {
    findings.push(...checkSubject(subject));
    const projected = projectKept(subject);
    if (isFinding(projected)) {
      findings.push(projected);
      unclear.push(subject);
    } else collect(rows, projected);
  }
  return { ...batch, findings, rows, unclear };
}

function collect(rows: Map<ProjectedTable, ProjectedRow[]>, projected: Projection): void {
  for (const [table, list] of Object.entries(projected)) {
    const all = rows.get(table as ProjectedTable);
    if (!all) throw new Error(`${table} is projected and not registered in PROJECTED_TABLES.`);
    for (const row of list) all.push(row);
  }
}

/**
 * Compares the rows of a batch with the tables. Where an entry was forged so that the database cannot even read the
 * rows that follow from it, the batch is taken apart until the subject is alone, and named.
 */
export async function compareBatch(tx: Tx, batch: CheckedBatch): Promise<Finding[]> {
  await sql`savepoint batch`.execute(tx);
  try {
    const findings: Finding[] = [];
    const except = batch.unclear.map(({ id }) => id);
    for (const table of ALL_PROJECTED) {
      findings.push(...(await compareTable(tx, table, batch.rows.get(table) ?? [], batch.range, except)));
    }
    return findings;
  } catch (failure) {
    await sql`rollback to savepoint batch`.execute(tx);
    if (batch.subjects.length > 1) return (await compareHalves(tx, batch)).flat();
    const subject = batch.subjects[0]?.id;
    if (subject === undefined) throw failure;
    return [{ code: "entries-unreadable", subject, why: failure instanceof Error ? failure.message : "" }];
  } finally {
    await sql`release savepoint batch`.execute(tx);
  }
}

async function compareHalves(tx: Tx, { subjects, range }: SubjectBatch): Promise<Finding[][]> {
  const half = Math.ceil(subjects.length / 2);
  const before = subjects[half]?.id;
  const parts: SubjectBatch[] = [
    { subjects: subjects.slice(0, half), range: { from: range.from, before } },
    { subjects: subjects.slice(half), range: { ...range, from: before } },
  ];
  const findings: Finding[][] = [];
  for (const part of parts) findings.push(await compareBatch(tx, checkEntries(part)));
  return findings;
}
