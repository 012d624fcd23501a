import fs from "node:fs";
import path from "node:path";
import { describe, expect, it } from "vitest";
import { brokenBorders, importsOf, roomOf } from "../borders.ts";
import { ROOT, withFolder } from "../kit/running-house.ts";

const inTree = (files: Readonly<Record<string, string>>) =>
  withFolder(async (folder) => {
    for (const top of ["server", "labels", "db", "web"]) fs.mkdirSync(path.join(folder, top));
    for (const [name, text] of Object.entries(files)) {
      fs.mkdirSync(path.join(folder, path.dirname(name)), { recursive: true });
      fs.writeFileSync(path.join(folder, name), text);
    }
    return brokenBorders(folder);
  });

describe("the borders between the rooms", () => {
  it("hold in the whole house", () => {
    expect(brokenBorders(ROOT)).toEqual([]);
  });

  it.each([
    ["server/domain/tags/a.ts", 'import { z } from "zod";', "server/domain may not import zod"],
    [
      "server/domain/tags/a.ts",
      'import {\n  b,\n} from "../../store/b.ts";',
      "server/domain may not import server/store/b.ts",
    ],
    ["server/cases/a.ts", 'export { sql } from "kysely";', "server/cases may not import kysely"],
    [
      "server/http/a.ts",
      'import type { Db } from "../store/db.ts";',
      "server/http may not import server/store/db.ts",
    ],
    ["web/screens/a.tsx", 'const lazy = () => import("hono");', "web/screens may not import hono"],
    [
      "web/api/a.ts",
      'import { app } from "../../server/http/app-type.ts";',
      "only types may come from server/http/app-type.ts",
    ],
    ["server/a/b.ts", 'import "../../labels/none/c.ts";', "server may not import labels/none/c.ts"],
    ["server/domain/a.ts", "const n = Math.random();", "Math.random is not pure"],
    ["server/store/helpers.ts", "", "a file is named for the idea in it"],
    ["server/store/a.ts", "// TODO later", "a TODO names its issue"],
  ])("stop %s with %j", async (name, text, fault) => {
    expect(await inTree({ [name]: text })).toEqual([`${name}: ${fault}`]);
  });

  it("stop a file of more than 300 lines", async () => {
    const fault = "server/store/a.ts: 301 lines, at most 300";
    expect(
      await inTree({ "server/store/a.ts": "\n".repeat(301), "server/store/b.ts": "\n".repeat(300) }),
    ).toEqual([fault]);
  });

  it("let through what the table allows", async () => {
    const files = {
      "server/store/a.ts":
        'import { sql } from "kysely";\nimport type { Database } from "../../db/schema/database.ts";',
      "web/api/a.ts":
        'import type { App } from "../../server/http/app-type.ts";\nimport { hc } from "hono/client";',
      "labels/papers/a.ts": 'import { b } from "../draw/b.ts";\nimport { c } from "./c.ts";',
    };
    expect(await inTree(files)).toEqual([]);
  });

  it("are read from every form of import", () => {
    const text =
      'import a from "a";\nimport "b";\nexport * from "c";\nimport type { d } from "d";\nawait import("e");';
    expect(importsOf(text).map(({ from }) => from)).toEqual(["a", "b", "c", "d", "e"]);
    expect(roomOf("db/schema/database.ts")).toBe("db/schema");
    expect(roomOf("test/kit/a.ts")).toBeUndefined();
  });
});
