import { expect, test } from "vitest";
import { troubleFromSystemText } from "./start-trouble.ts";

test.each([
  ["initdb", 'initdb: error: could not write to file "pg_wal/xlogtemp.51": No space left on device'],
  ["PostgreSQL", 'FATAL:  could not write lock file "postmaster.pid": No space left on device'],
  ["Node", "ENOSPC ENOSPC: no space left on device, mkdir '/data/database.unfinished'"],
  ["a quota", "EDQUOT EDQUOT: quota exceeded, open '/data/owner.json.7'"],
])("a full disk is known by what %s says of it", (_who, said) => {
  expect(troubleFromSystemText(said, "/data")).toMatchObject({
    code: "disk-full",
    message: expect.stringContaining("The disk that holds /data is full."),
  });
});

test.each([
  ["initdb", 'initdb: error: could not access directory "/data/database": Permission denied'],
  ["Node", "EACCES EACCES: permission denied, mkdir '/data'"],
  ["a file system that only reads", "EROFS EROFS: read-only file system, mkdir '/data'"],
])("missing permission is known by what %s says of it", (_who, said) => {
  expect(troubleFromSystemText(said, "/data")?.code).toBe("no-permission");
});

test("any other fault is not given a name that is not its own", () => {
  expect(troubleFromSystemText("FATAL:  could not map anonymous shared memory", "/data")).toBeUndefined();
});
