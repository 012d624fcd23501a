import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import { checkDatabase } from "../../db/check-database.ts";
import { openClient } from "../../db/connect.ts";
import { startEmbedded } from "../../db/embedded.ts";
import { migrate } from "../../db/migrate.ts";
import { withFolder } from "../kit/running-house.ts";
import { useTestDatabase } from "../kit/test-database.ts";
import { roleUrl, superUrlOf } from "../kit/test-roles.ts";

const db = useTestDatabase();
const ROLE = "layertrail_strange_app";

async function asSuper(...statements: string[]): Promise<void> {
  const client = await openClient(superUrlOf(inject("superUrl"), db.name));
  try {
    for (const statement of statements) await client.query(statement);
  } finally {
    await client.end();
  }
}

const checkStrange = () => checkDatabase(roleUrl(inject("superUrl"), ROLE, db.name));

describe("a database of the department's own", () => {
  beforeAll(() => asSuper(`create role ${ROLE} login password 'layertrail-test' in role layertrail_app`));
  afterAll(() => asSuper(`drop owned by ${ROLE}`, `drop role ${ROLE}`));

  it("is fit with a role that has what layertrail_app was granted, and has the same id for every role", async () => {
    expect(await checkStrange()).toBe(await checkDatabase(db.appUrl));
  });

  it.each(["update", "delete", "truncate", "trigger", "references"])(
    "is refused to a role that may %s entries",
    async (may) => {
      await asSuper(`grant ${may} on entry to ${ROLE}`);
      await expect(checkStrange()).rejects.toThrow(new RegExp(`${ROLE} may do more .*: ${may} on entry`));
      await asSuper(`revoke ${may} on entry from ${ROLE}`);
      await expect(checkStrange()).resolves.toBeTypeOf("string");
    },
  );

  it("is refused to a role that may change one column of an act", async () => {
    await asSuper(`grant update (recorded_at) on act to ${ROLE}`);
    await expect(checkStrange()).rejects.toThrow(/update on act/);
    await asSuper(`revoke update (recorded_at) on act from ${ROLE}`);
  });

  it("is refused to the owner of the tables, to its members, to a superuser and to what is as good as one", async () => {
    await expect(checkDatabase(db.ownerUrl)).rejects.toThrow(/what layertrail_owner may/);
    await asSuper(`grant layertrail_owner to ${ROLE}`);
    await expect(checkStrange()).rejects.toThrow(/what layertrail_owner may/);
    await asSuper(`revoke layertrail_owner from ${ROLE}`, `grant pg_execute_server_program to ${ROLE}`);
    await expect(checkStrange()).rejects.toThrow(/what pg_execute_server_program may/);
    await asSuper(`revoke pg_execute_server_program from ${ROLE}`);
    await expect(checkDatabase(superUrlOf(inject("superUrl"), db.name))).rejects.toThrow(/superuser/);
  });

  it("is refused to a role that may not add acts", async () => {
    await asSuper(`revoke layertrail_app from ${ROLE}`);
    await expect(checkStrange()).rejects.toThrow(/lacks insert on act, insert on entry, select on act/);
    await asSuper(`grant layertrail_app to ${ROLE}`);
  });

  it("is refused with synchronous_commit off for the role", async () => {
    await asSuper(`alter role ${ROLE} set synchronous_commit = off`);
    await expect(checkStrange()).rejects.toThrow(/synchronous_commit off/);
    await asSuper(`alter role ${ROLE} reset synchronous_commit`);
  });

  it("is refused with fsync and full_page_writes off for the server", () =>
    withFolder(async (folder) => {
      const settings = { fsync: "off", full_page_writes: "off" };
      const weak = await startEmbedded({ dataDir: folder, settings });
      try {
        await migrate(weak.ownerUrl);
        await expect(checkDatabase(weak.appUrl)).rejects.toThrow(/fsync and full_page_writes off/);
      } finally {
        await weak.stop();
      }
    }));
});
