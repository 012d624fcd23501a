import { sql } from "kysely";
import { expect, test } from "vitest";
import { readMigrations } from "../../db/read-migrations.ts";
import { recordCleaningAct } from "../../server/cases/bench-acts.ts";
import { takeBackAct } from "../../server/cases/correct-acts.ts";
import { verifyLedger } from "../../server/cases/verify.ts";
import type { Uuid } from "../../server/domain/ids.ts";
import { liveIn, scanned } from "../kit/small-department.ts";
import { useTestDatabase } from "../kit/test-database.ts";

const database = useTestDatabase();

test("a department that cleaned before its cleanings were rows gets the rows that its ledger tells", async () => {
  const { inez, liner, hood } = await liveIn(() => database.app);
  const clean = (at: string) =>
    inez.must(recordCleaningAct, { pieces: scanned(hood), how: "advanced cleaning" }, at);
  await clean("2026-03-04T09:00:00Z");
  // Recorded later, done earlier; and one that was taken back.
  await clean("2026-03-03T09:00:00.250Z");
  await clean("2026-03-05T09:00:00Z");
  const last = await database.app
    .selectFrom("act")
    .select("id")
    .orderBy("position", "desc")
    .limit(1)
    .executeTakeFirstOrThrow();
  await inez.must(takeBackAct, { act: last.id as Uuid, note: "another hood" });
  const rows = () =>
    database.app.selectFrom("piece_cleaned").selectAll().orderBy("piece").orderBy("n").execute();
  const before = await rows();
  expect(before.filter(({ piece }) => piece === hood)).toHaveLength(2);
  expect(before.some(({ piece }) => piece === liner)).toBe(true);
  const migration = readMigrations().find(({ name }) => name === "0060-traces.sql");
  const fill = migration?.sql
    .split(";\n")
    .find((statement) => statement.includes("insert into piece_cleaned"));
  await sql`delete from piece_cleaned`.execute(database.owner);
  await sql.raw(fill ?? "").execute(database.owner);
  expect(await rows()).toEqual(before);
  expect((await verifyLedger(database.app)).findings).toEqual([]);
});
