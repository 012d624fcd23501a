import { sql } from "kysely";
import { describe, expect, it } from "vitest";
import { openClient } from "../../db/connect.ts";
import { cloneTemplate, useTestDatabase } from "../kit/test-database.ts";

describe("the database of a test file", () => {
  const db = useTestDatabase();

  it("is migrated and reached in the application's role", async () => {
    const { rows } = await sql<{ who: string; acts: number }>`
      select current_user::text as who, (select count(*) from act) as acts`.execute(db.app);
    expect(rows).toEqual([{ who: "layertrail_app", acts: 0 }]);
  });

  it("names a connection that was left open", async () => {
    const second = await cloneTemplate();
    const leak = await openClient(second.database.appUrl);
    const leaked = await second.drop();
    await leak.end().catch(() => {});
    expect(leaked).toHaveLength(1);
    expect(leaked[0]).toContain("layertrail_app");
  });

  it("gives int8 as a number, date as its text and timestamptz as an instant, in arrays too", async () => {
    const { rows } = await sql<Record<string, unknown>>`
      select 9007199254740991::int8 as eight, date '2026-02-28' as day, timestamptz '2026-02-28 23:30:00-05' as at,
             array[1, 2]::int8[] as eights, array[date '2026-02-28'] as days, array[]::int8[] as none`.execute(
      db.app,
    );
    expect(rows[0]).toEqual({
      eight: 9007199254740991,
      day: "2026-02-28",
      at: new Date("2026-03-01T04:30:00Z"),
      eights: [1, 2],
      days: ["2026-02-28"],
      none: [],
    });
  });

  it("refuses an int8 that a JavaScript number would round", async () => {
    await expect(sql`select 9007199254740992::int8 as eight`.execute(db.app)).rejects.toThrow(/too large/);
  });
});
