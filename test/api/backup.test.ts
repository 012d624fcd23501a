import { sql } from "kysely";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { backUp } from "../../server/cases/backup.ts";
import { movePiecesAct } from "../../server/cases/bench-acts.ts";
import { namePlaceAct } from "../../server/cases/register-acts.ts";
import { restore } from "../../server/cases/restore.ts";
import { verifyLedger } from "../../server/cases/verify.ts";
import type { PlaceId } from "../../server/domain/ids.ts";
import { BESIDE_TABLES, LEFT_OUT } from "../../server/store/backup-tables.ts";
import { PROJECTED_TABLES } from "../../server/store/projected-rows.ts";
import { actor, anId } from "../kit/acting.ts";
import { type LivelyDepartment, liveIn, scanned } from "../kit/small-department.ts";
import { cloneTemplate, type OpenDatabase, type TestDatabase } from "../kit/test-database.ts";

let original: OpenDatabase;
let department: LivelyDepartment;
let lines: string[];

beforeAll(async () => {
  original = await cloneTemplate();
  const { database } = original;
  department = await liveIn(() => database.app);
  const { inez, corwin } = department;
  await sql`insert into viewing (member, by) values (${corwin}, ${inez.by})`.execute(database.app);
  await sql`insert into scan (by, device, via, mode, text, answer)
    values (${inez.by}, 'bench-1', 'wedge', 'look up', 'HJ9V', array['unknown-number'])`.execute(
    database.app,
  );
  await sql`insert into credential (account, passphrase) values (${inez.by}, '{"alg": "argon2id"}')`.execute(
    database.app,
  );
  lines = (await backupText(database, true)).trimEnd().split("\n");
});
afterAll(() => original.drop());

async function backupText(database: TestDatabase, withScans: boolean): Promise<string> {
  let text = "";
  const write = async (more: string) => {
    text += more;
  };
  await backUp(database.app, write, { nowMs: Date.UTC(2026, 2, 3), withScans });
  return text;
}

async function* from(list: readonly string[]): AsyncGenerator<string> {
  yield* list;
}

async function withCopy<Result>(work: (copy: TestDatabase) => Promise<Result>): Promise<Result> {
  const { database, drop } = await cloneTemplate();
  try {
    return await work(database);
  } finally {
    await drop();
  }
}

const contents = async ({ owner }: TestDatabase, table: string) =>
  (
    await sql<{ row: unknown }>`select to_jsonb(t) as row from ${sql.table(table)} t order by 1`.execute(
      owner,
    )
  ).rows;

test("every table is in the ledger, follows from it, is kept beside it, or is left out with a reason", async () => {
  const { rows } = await sql<{ name: string }>`
    select tablename as name from pg_tables where schemaname = 'public'`.execute(original.database.owner);
  const known = ["act", "entry", "entry_text", ...Object.keys(PROJECTED_TABLES), ...BESIDE_TABLES];
  expect(rows.map(({ name }) => name).sort()).toEqual([...known, ...Object.keys(LEFT_OUT)].sort());
});

test("a restored copy verifies, has the same last hash, and is equal in every table that is kept", async () => {
  const verified = await verifyLedger(original.database.app);
  await withCopy(async (copy) => {
    const outcome = await restore(copy.app, from(lines));
    expect(outcome).toMatchObject({
      verification: { findings: [], hash: verified.hash, acts: verified.acts },
    });
    for (const table of ["act", "entry", "entry_text", "ledger_head", ...Object.keys(PROJECTED_TABLES)]) {
      expect(await contents(copy, table), table).toEqual(await contents(original.database, table));
    }
    for (const table of BESIDE_TABLES) {
      expect(await contents(copy, table), table).toEqual(await contents(original.database, table));
    }
  });
});

test("acts go on in a restored copy, on the chain that was", async () => {
  await withCopy(async (copy) => {
    await restore(copy.app, from(lines));
    const odile = actor(() => copy.app, "program manager", "2026-03-03T09:00:00Z");
    await odile.must(namePlaceAct, { id: anId<PlaceId>(), name: "Rack B3", what: "rack", carries: "shared" });
    await odile.must(movePiecesAct, {
      pieces: scanned(department.hood),
      to: { kind: "member", id: department.corwin },
      purpose: "transfer",
    });
    const verified = await verifyLedger(copy.app);
    expect(verified.findings).toEqual([]);
    expect(verified.acts).toBe((await verifyLedger(original.database.app)).acts + 2);
  });
});

test("scans are left out when they are not wanted, and nothing else", async () => {
  const without = (await backupText(original.database, false)).trimEnd().split("\n");
  const scans = lines.indexOf('{"section":"scan"}');
  expect(scans).toBeGreaterThan(0);
  expect(without.slice(0, -1)).toEqual(lines.slice(0, scans));
});

describe("a backup is not restored, and nothing of it is kept,", () => {
  const header = () => JSON.parse(lines[0] ?? "") as Record<string, unknown>;
  const withHeader = (change: object) => [JSON.stringify({ ...header(), ...change }), ...lines.slice(1)];
  const middle = () => lines.findIndex((line) => line.includes('"PieceMoved"'));
  const withLine = (change: (line: string) => string) =>
    lines.map((line, index) => (index === middle() ? change(line) : line));

  test.each([
    ["when it is something else", () => ["name,number", "Bask,214"], { code: "not-a-backup" }],
    ["when it is empty", () => [], { code: "not-a-backup" }],
    ["when it is of a newer format", () => withHeader({ format: 2 }), { code: "made-by-newer" }],
    ["when its schema is newer", () => withHeader({ schema: "9999-x.sql" }), { code: "made-by-newer" }],
    ["when it ends in the middle", () => lines.slice(0, middle()), { code: "cut-off" }],
    ["when only its end is missing", () => lines.slice(0, -1), { code: "cut-off" }],
    ["when a row was taken out", () => lines.toSpliced(middle(), 1), { code: "damaged" }],
    [
      "when a byte was changed in what would still be a row",
      () => withLine((line) => line.replace('"kind": "PieceMoved"', '"kind": "PieceFound"')),
      { code: "damaged" },
    ],
    ["when a line is no JSON", () => withLine((line) => line.slice(0, 40)), { code: "damaged" }],
    ["when it names another last act", () => withHeader({ hash: "00".repeat(32) }), { code: "damaged" }],
    ["when it goes on after its end", () => [...lines, lines[5] ?? ""], { code: "damaged" }],
  ] as const)("%s", async (_, made, refusal) => {
    await withCopy(async (copy) => {
      expect(await restore(copy.app, from(made()))).toMatchObject({ refused: refusal });
      expect(await contents(copy, "act")).toEqual([]);
      expect(await contents(copy, "person")).toEqual([]);
    });
  });

  test("when the database is not empty", async () => {
    const before = await contents(original.database, "act");
    expect(await restore(original.database.app, from(lines))).toEqual({ refused: { code: "not-empty" } });
    expect(await contents(original.database, "act")).toEqual(before);
  });
});
