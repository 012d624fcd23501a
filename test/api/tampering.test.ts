import { sql } from "kysely";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { daySeal } from "../../server/cases/day-seal.ts";
import { type Verification, verifyLedger } from "../../server/cases/verify.ts";
import type { LocalDate } from "../../server/domain/time.ts";
import { sha256 } from "../../server/ledger/canonical.ts";
import { actDigest, linkHash } from "../../server/ledger/chain.ts";
import type { Finding } from "../../server/ledger/finding.ts";
import { PROJECTED_TABLES, type ProjectedTable, SUBJECT_COLUMN } from "../../server/store/projected-rows.ts";
import { walkActs } from "../../server/store/walk-acts.ts";
import { type LivelyDepartment, liveIn } from "../kit/small-department.ts";
import { cloneTemplate, type OpenDatabase, type TestDatabase } from "../kit/test-database.ts";

/** The hood of the small department has so many entries: registered, on hold, found, a code bound. */
const LAST = 4;

type Tampering = (database: TestDatabase) => Promise<unknown>;

let original: OpenDatabase;
let department: LivelyDepartment;
let before: Verification;

beforeAll(async () => {
  original = await cloneTemplate();
  department = await liveIn(() => original.database.app);
  before = await verifyLedger(original.database.app);
  await original.close();
});
afterAll(() => original.drop());

/** A department in which something happened, tampered with by somebody who owns the tables, and then verified. */
async function afterTampering(
  tamper: Tampering,
  verify = (database: TestDatabase) => verifyLedger(database.app),
): Promise<readonly Finding[]> {
  const { database, drop } = await cloneTemplate(original.database.name);
  try {
    await freeTables(database);
    await tamper(database);
    return (await verify(database)).findings;
  } finally {
    await drop();
  }
}

/** What guards the tables against slips, taken away as an owner can. */
async function freeTables({ owner }: TestDatabase): Promise<void> {
  const { rows } = await sql<{ table: string; name: string }>`
    select conrelid::regclass::text as table, conname as name from pg_constraint
    where contype = 'f' and conrelid in ('entry'::regclass, 'entry_text'::regclass)`.execute(owner);
  for (const { table, name } of rows) {
    await sql`alter table ${sql.table(table)} drop constraint ${sql.ref(name)}`.execute(owner);
  }
}

const sealOf = ({ position, hash }: Verification) => ({ position, hash });
const withCode = (findings: readonly Finding[], code: Finding["code"]) =>
  findings.filter((finding) => finding.code === code);

/** Writes an entry's bytes anew, as they would have been had the piece been found elsewhere. */
const changeBody = (piece: string, kind: string) => sql`
  update entry set bytes = convert_to(replace(convert_from(bytes, 'UTF8'), '"evidence":"scanned"', '"evidence":"typed"'), 'UTF8')
  where subject = ${piece} and kind = ${kind}`;

test("an untouched ledger verifies, and says its last position and hash", async () => {
  expect(before).toMatchObject({ findings: [], findingCount: 0 });
  const { database, drop } = await cloneTemplate(original.database.name);
  try {
    const head = await database.app.selectFrom("ledger_head").selectAll().executeTakeFirstOrThrow();
    expect([before.position, before.hash]).toEqual([head.position, head.hash.toString("hex")]);
    const counted = await sql<{ acts: number; entries: number }>`
      select (select count(*) from act) as acts, (select count(*) from entry) as entries`.execute(
      database.app,
    );
    expect(counted.rows[0]).toEqual({ acts: before.acts, entries: before.entries });
  } finally {
    await drop();
  }
});

test("an empty ledger verifies", async () => {
  const { database, drop } = await cloneTemplate();
  try {
    expect(await verifyLedger(database.app)).toMatchObject({ acts: 0, findings: [], position: 0 });
  } finally {
    await drop();
  }
});

describe("in the entries", () => {
  test("a changed body is named by subject and version", async () => {
    const findings = await afterTampering(async ({ owner }) => {
      await sql`alter table entry alter column hash drop expression`.execute(owner);
      await changeBody(department.hood, "PieceFound").execute(owner);
    });
    expect(findings).toContainEqual({ code: "entry-changed", subject: department.hood, version: 3 });
    expect(withCode(findings, "act-changed")).toEqual([]);
  });

  test("a changed body with its hash is named by the act that wrote it and its entries", async () => {
    const findings = await afterTampering(({ owner }) =>
      changeBody(department.hood, "PieceFound").execute(owner),
    );
    expect(withCode(findings, "act-changed")).toMatchObject([
      { entries: [{ subject: department.hood, version: 3 }] },
    ]);
  });

  test("a dropped row is named by the act that lacks it, and by its number where later ones are there", async () => {
    const findings = await afterTampering(async ({ owner }) =>
      sql`delete from entry where subject = ${department.hood} and version = 2`.execute(owner),
    );
    expect(findings).toContainEqual({ code: "entry-missing", subject: department.hood, version: 2 });
    expect(withCode(findings, "entries-missing")).toMatchObject([{ was: 0, should: 1 }]);
  });

  test("the last row of a subject that is dropped is named by its act, and by the cells that do not follow any more", async () => {
    const findings = await afterTampering(async ({ owner }) =>
      sql`delete from entry where subject = ${department.hood} and version = ${LAST}`.execute(owner),
    );
    expect(withCode(findings, "entries-missing")).toHaveLength(1);
    expect(findings).toContainEqual({
      ...{ code: "cell-differs", table: "piece", subject: department.hood, row: "" },
      ...{ column: "version", was: String(LAST), should: String(LAST - 1) },
    });
  });

  test("a forged entry that names an act is named by that act", async () => {
    const findings = await afterTampering(({ owner }) =>
      sql`insert into entry (subject, version, subject_kind, act, n, kind, bytes)
        select subject, ${LAST + 1}, subject_kind, act, 2, kind, bytes from entry where subject = ${department.hood} and version = ${LAST}`.execute(
        owner,
      ),
    );
    expect(withCode(findings, "entries-added")).toMatchObject([{ was: 2, should: 1 }]);
    expect(findings).toContainEqual(expect.objectContaining({ code: "entry-misplaced", column: "version" }));
  });

  test("a forged entry of an act that never was is named with that act", async () => {
    const nobody = "01950000-0000-7000-8000-0000000000ff";
    const findings = await afterTampering(({ owner }) =>
      sql`insert into entry (subject, version, subject_kind, act, n, kind, bytes)
        select subject, ${LAST + 1}, subject_kind, ${nobody}, 1, kind, bytes from entry where subject = ${department.hood} and version = ${LAST}`.execute(
        owner,
      ),
    );
    expect(findings).toContainEqual({
      ...{ code: "entry-without-act", subject: department.hood, version: LAST + 1, act: nobody },
    });
  });

  test("an entry that is put to another piece is named, though its bytes are as they were", async () => {
    const findings = await afterTampering(({ owner }) =>
      sql`update entry set subject = ${department.liner}, version = 99 where subject = ${department.hood} and version = 3`.execute(
        owner,
      ),
    );
    expect(findings).toContainEqual({
      ...{ code: "entry-misplaced", subject: department.liner, version: 99 },
      ...{ column: "subject", was: department.liner, should: department.hood },
    });
  });

  test("an entry whose bytes are no entry any more is named, and the rest is verified all the same", async () => {
    const findings = await afterTampering(async ({ owner }) => {
      await sql`update entry set bytes = 'nonsense' where subject = ${department.hood} and version = 3`.execute(
        owner,
      );
      await sql`update piece set washes = 7 where id = ${department.liner}`.execute(owner);
    });
    expect(findings).toContainEqual({ code: "entry-unreadable", subject: department.hood, version: 3 });
    expect(withCode(findings, "entries-unreadable")).toHaveLength(1);
    expect(withCode(findings, "cell-differs")).toMatchObject([
      { subject: department.liner, column: "washes" },
    ]);
  });

  test("a forged value that no column can hold is named by its subject, and the rest is verified all the same", async () => {
    const findings = await afterTampering(async ({ owner }) => {
      await sql`update entry set bytes = convert_to(replace(convert_from(bytes, 'UTF8'), ${department.bench}, 'nowhere'), 'UTF8')
        where subject = ${department.hood}`.execute(owner);
      await sql`update piece set washes = 7 where id = ${department.liner}`.execute(owner);
    });
    expect(withCode(findings, "entries-unreadable")).toMatchObject([{ subject: department.hood }]);
    expect(withCode(findings, "cell-differs")).toMatchObject([
      { subject: department.liner, column: "washes" },
    ]);
  });

  test.each([
    ["changed", sql`update entry_text set body = 'as good as new' where name = 'note'`, "text-changed"],
    [
      "withdrawn without an entry that says so",
      sql`update entry_text set body = null where name = 'note'`,
      "text-missing",
    ],
    ["dropped", sql`delete from entry_text where name = 'note'`, "text-missing"],
    [
      "added",
      sql`insert into entry_text select subject, version, 'more', salt, body from entry_text where name = 'note'`,
      "text-unknown",
    ],
  ] as const)("a free text that is %s is named", async (_, statement, code) => {
    const findings = await afterTampering(({ owner }) => statement.execute(owner));
    expect(findings).toEqual([
      { code, subject: department.hood, version: 2, name: code === "text-unknown" ? "more" : "note" },
    ]);
  });
});

describe("in the chain", () => {
  const dropAct = (position: string) =>
    sql`with gone as (delete from act where position = ${sql.raw(position)} returning id)
      delete from entry where act in (select id from gone)`;

  test("a dropped act is named by its position", async () => {
    const findings = await afterTampering(({ owner }) => dropAct("20").execute(owner));
    expect(findings).toContainEqual({ code: "act-missing", position: 20, through: 20 });
    expect(withCode(findings, "chain-broken")).toEqual([]);
  });

  test("a dropped tail is found by the head of the ledger", async () => {
    const findings = await afterTampering(({ owner }) =>
      dropAct("(select max(position) from act)").execute(owner),
    );
    const { position } = before;
    expect(findings).toContainEqual({ code: "head-differs", head: position, last: position - 1 });
  });

  const dropTailAndHead: Tampering = async ({ owner }) => {
    await dropAct("(select max(position) from act)").execute(owner);
    await sql`update ledger_head h set position = a.position, hash = a.hash, recorded_at = a.recorded_at
      from act a where a.position = (select max(position) from act)`.execute(owner);
  };

  test("a dropped tail with its head put back is found against a seal, and by nothing else in the chain", async () => {
    const findings = await afterTampering(dropTailAndHead, ({ app }) =>
      verifyLedger(app, { seals: [sealOf(before)] }),
    );
    expect(findings).toContainEqual({
      ...{ code: "seal-beyond-end", position: before.position, last: before.position - 1 },
    });
    expect(withCode(findings, "head-differs")).toEqual([]);
  });

  test("a dropped tail is found against the seal of the day", async () => {
    const today = new Date().toISOString().slice(0, 10) as LocalDate;
    let hash = "";
    const findings = await afterTampering(
      async (database) => {
        hash = (await daySeal(database.app, today))?.hash ?? "";
        await dropTailAndHead(database);
      },
      ({ app }) => verifyLedger(app, { seals: [{ day: today, hash }] }),
    );
    expect(withCode(findings, "seal-differs")).toMatchObject([{ day: today }]);
  });

  test.each([
    ["who acted", sql`by = '01950000-0000-7000-8000-0000000000ff'`],
    ["when it happened", sql`at = at - interval '1 day'`],
    ["when it happened, by less than the ledger can write", sql`at = at + interval '1 microsecond'`],
    ["the command", sql`command = 'retirePieces'`],
    ["the device", sql`device = 'bench-9'`],
  ] as const)("a changed act is named: %s", async (_, change) => {
    const findings = await afterTampering(({ owner }) =>
      sql`update act set ${change} where position = 20`.execute(owner),
    );
    expect(findings).toMatchObject([{ code: "act-changed", position: 20 }]);
  });

  test("a changed time of recording is named", async () => {
    const findings = await afterTampering(({ owner }) =>
      sql`update act set recorded_at = recorded_at - interval '1 day' where position = 20`.execute(owner),
    );
    expect(findings.map(({ code }) => code)).toEqual(["time-goes-back", "hash-differs"]);
  });

  /** Rewrites history from a position on, every hash with it: what only a seal kept elsewhere can show. */
  const rewrite: Tampering = async ({ owner }) => {
    await changeBody(department.hood, "PieceFound").execute(owner);
    await sql`update piece set seen_at = seen_at`.execute(owner);
    await owner.transaction().execute(async (tx) => {
      let prev: Buffer | undefined;
      for await (const batch of walkActs(tx)) {
        for (const act of batch) {
          const digest = actDigest(act, [act.entryHashes]);
          const hash = linkHash(prev ?? act.prev, act.position, digest, act.recordedAt);
          await sql`update act set digest = ${digest}, prev = ${prev ?? act.prev}, hash = ${hash} where id = ${act.id}`.execute(
            tx,
          );
          prev = hash;
        }
      }
      await sql`update ledger_head set hash = ${prev}`.execute(tx);
    });
  };

  test("a history rewritten with all its hashes is found against a seal", async () => {
    const findings = await afterTampering(rewrite, ({ app }) =>
      verifyLedger(app, { seals: [sealOf(before)] }),
    );
    expect(withCode(findings, "seal-differs")).toEqual([{ code: "seal-differs", position: before.position }]);
    expect(withCode(findings, "chain-broken")).toEqual([]);
  });

  test("an act rewritten with its own hash breaks the chain at the next one", async () => {
    const findings = await afterTampering(async ({ owner }) => {
      await sql`update act set digest = ${sha256("forged")} where position = 20`.execute(owner);
      await sql`update act set hash = sha256(prev || int8send(position) || digest
        || int8send((extract(epoch from recorded_at) * 1000)::bigint)) where position = 20`.execute(owner);
    });
    expect(findings).toMatchObject([
      { code: "act-changed", position: 20 },
      { code: "chain-broken", position: 21 },
    ]);
  });
});

describe("in the tables that follow", () => {
  test("one changed cell is named with table, subject, column, what it was and what it should be: each column of each table", async () => {
    const { database, drop } = await cloneTemplate(original.database.name);
    try {
      await loosenChecks(database);
      const { rows: columns } = await sql<{ table: ProjectedTable; column: string; type: string }>`
        select c.relname as table, a.attname as column, format_type(a.atttypid, null) as type
        from pg_attribute a join pg_class c on c.oid = a.attrelid
        where c.relname = any(${Object.keys(PROJECTED_TABLES)}) and c.relnamespace = 'public'::regnamespace
          and a.attnum > 0 and not a.attisdropped`.execute(database.owner);
      const untouched: string[] = [];
      for (const { table, column, type } of columns) {
        const keys: readonly string[] = [...PROJECTED_TABLES[table], SUBJECT_COLUMN[table]];
        if (keys.includes(column)) continue;
        const restore = await changeOneCell(database, table, { column, type });
        if (!restore) {
          untouched.push(table);
          continue;
        }
        const { findings } = await verifyLedger(database.app);
        expect(findings, `${table}.${column}`).toMatchObject([{ code: "cell-differs", table, column }]);
        await restore();
      }
      expect(untouched).toEqual([]);
      expect((await verifyLedger(database.app)).findings).toEqual([]);
    } finally {
      await drop();
    }
  }, 120_000);

  test("a row that is missing is named, and one that is added, in the middle and at either end of the ids", async () => {
    const findings = await afterTampering(async ({ owner }) => {
      await sql`delete from hold where piece = ${department.hood}`.execute(owner);
      for (const id of ["00000000-0000-0000-0000-000000000001", "ffffffff-0000-7000-8000-000000000001"]) {
        await sql`insert into place values (${id}, ${id}, 'rack', 'shared', null, null, null, false, 1)`.execute(
          owner,
        );
      }
    });
    expect(findings).toEqual([
      { code: "row-extra", table: "place", subject: "00000000-0000-0000-0000-000000000001", row: "" },
      { code: "row-missing", table: "hold", subject: department.hood, row: "version=2" },
      { code: "row-extra", table: "place", subject: "ffffffff-0000-7000-8000-000000000001", row: "" },
    ]);
  });

  test("a table that was emptied is counted whole", async () => {
    const findings = await afterTampering(({ owner }) => sql`delete from stay`.execute(owner));
    expect(new Set(findings.map((finding) => "table" in finding && finding.table))).toEqual(
      new Set(["stay"]),
    );
  });
});

/** Takes checks and unique indexes away, so that any one cell can be changed. */
async function loosenChecks({ owner }: TestDatabase): Promise<void> {
  const { rows } = await sql<{ table: string; name: string }>`
    select conrelid::regclass::text as table, conname as name from pg_constraint
    where contype in ('c', 'x') and conrelid::regclass::text = any(${Object.keys(PROJECTED_TABLES)})`.execute(
    owner,
  );
  for (const { table, name } of rows) {
    await sql`alter table ${sql.table(table)} drop constraint ${sql.ref(name)}`.execute(owner);
  }
  // This index, too, takes no stay that ends before it begins.
  await sql`drop index stay_with_holder`.execute(owner);
}

/** Values that no row of the test department has, by the type of the column. */
const OTHER: Readonly<Record<string, string>> = {
  uuid: "'01950000-0000-7000-8000-0000000000fe'",
  text: "'tampered'",
  integer: "4711",
  bigint: "4711",
  boolean: "not %",
  date: "'1999-12-31'",
  "timestamp with time zone": "coalesce(% + interval '1 microsecond', now())",
  jsonb: `'{"tampered": true}'`,
  "text[]": "array['tampered']",
};

/** Changes one cell, of a row that has a value there if there is one, and gives what puts it back. */
async function changeOneCell(
  { owner }: TestDatabase,
  table: keyof typeof PROJECTED_TABLES,
  { column, type }: { readonly column: string; readonly type: string },
): Promise<(() => Promise<unknown>) | undefined> {
  const keys = PROJECTED_TABLES[table].map((key) => sql.ref(key));
  const { rows } = await sql<{ key: string; was: string | null }>`
    select row(${sql.join(keys)})::text as key, ${sql.ref(column)}::text as was
    from ${sql.table(table)} order by ${sql.ref(column)} is null limit 1`.execute(owner);
  const row = rows[0];
  if (!row) return undefined;
  const set = (value: ReturnType<typeof sql.raw>) =>
    sql`update ${sql.table(table)} set ${sql.ref(column)} = ${value}
      where row(${sql.join(keys)})::text = ${row.key}`.execute(owner);
  await set(sql.raw((OTHER[type] ?? "").replace("%", column)));
  return () => set(sql`${row.was}::${sql.raw(type)}`);
}
