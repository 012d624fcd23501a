import { sql } from "kysely";
import { beforeAll, expect, test } from "vitest";
import type { Uuid } from "../../server/domain/ids.ts";
import { parseTagNumber } from "../../server/domain/tags/tag-number.ts";
import { canonicalBytes, type LedgerValue } from "../../server/ledger/canonical.ts";
import { actDigest, FIRST_PREV, linkHash } from "../../server/ledger/chain.ts";
import { loadEntries } from "../../server/store/load-subjects.ts";
import { projectSubject } from "../../server/store/project-subject.ts";
import { type ProjectedTable, SUBJECT_COLUMN } from "../../server/store/projected-rows.ts";
import { generateRegister, PIECES_A_SET } from "../kit/generate-register.ts";
import { useTestDatabase } from "../kit/test-database.ts";

const db = useTestDatabase();
const SETS = 60;

beforeAll(async () => {
  await generateRegister(db.owner, SETS);
});

/** All rows of a table that pieces and tags account for, in a fixed order. */
async function rowsOf(table: ProjectedTable): Promise<unknown[]> {
  const { rows } = await sql<{ row: object }>`select row_to_json(t) as row from ${sql.table(table)} t
    where ${sql.ref(SUBJECT_COLUMN[table])} in (
      select subject from entry where subject_kind in ('piece', 'tag')) order by t::text`.execute(db.app);
  return rows.map(({ row }) => row);
}

/** Projected rows as PostgreSQL reads them into the table's own record, in the same order. */
async function asTableHasIt(table: ProjectedTable, rows: readonly object[]): Promise<unknown[]> {
  const read = await sql<{ row: object }>`select row_to_json(r) as row
    from json_populate_recordset(null::${sql.table(table)}, ${JSON.stringify(rows)}::json) r
    order by r::text`.execute(db.app);
  return read.rows.map(({ row }) => row);
}

test("the tables of a generated register are those that the fold of its entries gives", async () => {
  const projected = new Map<ProjectedTable, object[]>();
  for (const kind of ["piece", "tag"] as const) {
    const { rows } = await sql<{ subject: Uuid }>`
      select distinct subject from entry where subject_kind = ${kind}`.execute(db.app);
    expect(rows).toHaveLength(SETS * PIECES_A_SET);
    const ids = rows.map(({ subject }) => subject);
    const loaded = await db.app.transaction().execute((tx) => loadEntries(tx, kind, ids));
    for (const [id, entries] of loaded) {
      for (const [table, found] of Object.entries(projectSubject(kind, id, entries))) {
        const name = table as ProjectedTable;
        projected.set(name, [...(projected.get(name) ?? []), ...found]);
      }
    }
  }
  for (const [table, rows] of projected) {
    expect(await rowsOf(table), table).toEqual(await asTableHasIt(table, rows));
  }
  expect([...projected.keys()].sort()).toEqual([
    "by_eye",
    "fitting",
    "foreign_code",
    "found_property",
    "hold",
    "numbered",
    "piece",
    "piece_cleaned",
    "piece_met",
    "stay",
    "tag",
  ]);
});

test("the chain of a generated register holds from its first act to its head", async () => {
  const acts = await db.app.selectFrom("act").selectAll().orderBy("position").execute();
  let prev: Buffer = FIRST_PREV;
  for (const [index, act] of acts.entries()) {
    const entries = await db.app
      .selectFrom("entry")
      .select("hash")
      .where("act", "=", act.id)
      .orderBy("n")
      .execute();
    const digest = actDigest(
      {
        ...{
          id: act.id,
          command: act.command,
          commandHash: act.command_hash,
          by: act.by,
          device: act.device,
        },
        ...{ deviceSeq: act.device_seq, appBuild: act.app_build, at: act.at.getTime() },
        ...{ atOffsetMin: act.at_offset_min, sentAt: act.sent_at.getTime() },
      },
      entries.map(({ hash }) => hash),
    );
    expect(act.digest.equals(digest)).toBe(true);
    expect(act.position).toBe(index + 1);
    expect(act.prev.equals(prev)).toBe(true);
    prev = linkHash(prev, act.position, digest, act.recorded_at.getTime());
    expect(act.hash.equals(prev)).toBe(true);
  }
  const head = await db.app.selectFrom("ledger_head").selectAll().executeTakeFirstOrThrow();
  expect(head.hash.equals(prev)).toBe(true);
  expect(head.position).toBe(acts.length);
});

test("the entries of a generated register are canonical as RFC 8785 wants it", async () => {
  const { rows } = await sql<{ bytes: Buffer }>`select distinct on (kind) bytes from entry
    where subject_kind in ('piece', 'tag') order by kind, subject`.execute(db.app);
  expect(rows.length).toBeGreaterThanOrEqual(8);
  for (const { bytes } of rows) {
    expect(canonicalBytes(JSON.parse(bytes.toString("utf8")) as LedgerValue).toString()).toBe(
      bytes.toString(),
    );
  }
});

test("the numbers of a generated register have check symbols that hold", async () => {
  const tags = await db.app.selectFrom("tag").select("number").execute();
  expect(tags.filter(({ number }) => parseTagNumber(number) === number)).toHaveLength(SETS * PIECES_A_SET);
});
