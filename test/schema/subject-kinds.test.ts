import fs from "node:fs";
import path from "node:path";
import { expect, test } from "vitest";
import { SUBJECT_KINDS } from "../../server/domain/subjects.ts";

test("the ledger takes entries on exactly the subjects that the domain knows", () => {
  const sql = fs.readFileSync(path.join(import.meta.dirname, "../../db/migrations/0001-ledger.sql"), "utf8");
  const listed = /subject_kind text not null check \(subject_kind in \(([^)]*)\)/.exec(sql)?.[1] ?? "";
  expect(listed.match(/[a-z-]+/g)).toEqual([...SUBJECT_KINDS]);
});
