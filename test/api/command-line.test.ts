import fs from "node:fs";
import path from "node:path";
import { gunzipSync, gzipSync } from "node:zlib";
import { sql } from "kysely";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { kyselyOn, openPool } from "../../db/connect.ts";
import { StartTrouble } from "../../db/start-trouble.ts";
import type { House } from "../../server/cli/command.ts";
import { COMMANDS } from "../../server/cli/commands.ts";
import { runCommandLine } from "../../server/cli/run-command-line.ts";
import { withFolder } from "../kit/running-house.ts";
import { type LivelyDepartment, liveIn } from "../kit/small-department.ts";
import { cloneTemplate, type OpenDatabase, type TestDatabase } from "../kit/test-database.ts";

let original: OpenDatabase;
let department: LivelyDepartment;
beforeAll(async () => {
  original = await cloneTemplate();
  department = await liveIn(() => original.database.app);
});
afterAll(() => original.drop());

interface Said {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

/** Runs one command line on a test database, as the program does on the department's. */
async function run(args: readonly string[], database: TestDatabase = original.database): Promise<Said> {
  const [out, err]: [string[], string[]] = [[], []];
  const house: House = {
    async open() {
      const db = kyselyOn(openPool(database.appUrl, { max: 4 }));
      return { db, landed: [], close: () => db.destroy() };
    },
    progress: () => {},
    now: Date.now,
    address: "https://gear.example.org",
  };
  const voices = { out: (line: string) => out.push(line), err: (line: string) => err.push(line) };
  const code = await runCommandLine(args, house, voices, () => undefined);
  return { code, out: out.join("\n"), err: err.join("\n") };
}

async function withTampered<Result>(
  tamper: ReturnType<typeof sql>,
  work: (database: TestDatabase) => Promise<Result>,
) {
  const { database, drop } = await cloneTemplate();
  try {
    await liveIn(() => database.app);
    await tamper.execute(database.owner);
    return await work(database);
  } finally {
    await drop();
  }
}

describe("a command line that is not understood", () => {
  test.each([
    [
      "an unknown command",
      ["verfy"],
      'There is no command "verfy". "npm run layertrail -- --help" lists those there are.',
    ],
    ["an unknown option", ["verify", "--frob"], "verify has no option --frob."],
    ["an option without its value", ["verify", "--seal"], "The option --seal needs a value."],
    ["a missing argument", ["backup"], "backup needs FILE."],
    ["one argument too many", ["verify", "all"], 'verify does not know what to do with "all".'],
    ["a seal that is none", ["verify", "--seal", "12:beef"], '"12:beef" is no seal'],
    ["a piece that is none", ["verify", "--piece", "HJ9V"], '"HJ9V" is no piece'],
    ["a backup file that is not there", ["restore", "/nowhere/at-all"], "There is no file /nowhere/at-all"],
  ])("says so in one line with what next, and ends with 2: %s", async (_, args, line) => {
    const said = await run(args);
    expect(said).toMatchObject({ code: 2, out: "" });
    expect(said.err.startsWith(line)).toBe(true);
    expect(said.err).not.toContain("\n");
  });

  test("says it as JSON too where JSON was asked for", async () => {
    const said = await run(["verify", "--piece", "HJ9V", "--json"]);
    expect(said.code).toBe(2);
    expect(JSON.parse(said.out)).toEqual({ error: said.err });
  });

  test("without a command lists them all and ends with 2; with --help ends with 0", async () => {
    const [bare, helped] = [await run([]), await run(["--help"])];
    expect([bare.code, helped.code]).toEqual([2, 0]);
    for (const { name } of COMMANDS) expect(helped.out).toContain(`\n  ${name}`);
  });

  test.each(COMMANDS.map(({ name }) => name))(
    "%s --help says how it is called, its options and exit codes",
    async (name) => {
      const { code, out } = await run([name, "--help"]);
      expect(code).toBe(0);
      expect(out).toMatch(new RegExp(`^npm run layertrail -- ${name}`));
      for (const option of [
        ...Object.keys(COMMANDS.find((one) => one.name === name)?.options ?? {}),
        "json",
        "help",
      ]) {
        expect(out).toContain(`--${option}`);
      }
      expect(out).toContain("Exit code: 0");
    },
  );
});

test("trouble that a person can do something about ends with 3 and one line", async () => {
  const house = { open: () => Promise.reject(new StartTrouble("no-database", "There is no database.")) };
  const err: string[] = [];
  const voices = { out: () => {}, err: (line: string) => err.push(line) };
  const asTrouble = (error: unknown) => (error instanceof StartTrouble ? error.message : undefined);
  const code = await runCommandLine(["verify"], house as unknown as House, voices, asTrouble);
  expect([code, err]).toEqual([3, ["There is no database."]]);
});

describe("verify", () => {
  test("ends with 0 and tells the seal, which the next run takes", async () => {
    const { code, out } = await run(["verify"]);
    expect(code).toBe(0);
    const seal = /\d+:[0-9a-f]{64}/.exec(out)?.[0] ?? "";
    expect(await run(["verify", "--seal", seal])).toMatchObject({ code: 0 });
    await withFolder(async (folder) => {
      const file = path.join(folder, "seal.txt");
      fs.writeFileSync(file, `${seal}\n`);
      expect(await run(["verify", "--seal", file])).toMatchObject({ code: 0 });
    });
  });

  test("ends with 1 when the seal is another, and says what that means", async () => {
    const { code, out } = await run(["verify", "--seal", `5:${"ab".repeat(32)}`]);
    expect(code).toBe(1);
    expect(out).toContain("Act 5 does not have the sealed hash");
  });

  test("ends with 1 when something was tampered with, and names it for people and programs", async () => {
    await withTampered(sql`update piece set size = '99' where kind = 'hood'`, async (database) => {
      const [people, program] = [await run(["verify"], database), await run(["verify", "--json"], database)];
      expect([people.code, program.code]).toEqual([1, 1]);
      expect(people.out).toMatch(/^Table piece, [0-9a-f-]{36}: size is "99" and should be "46 32 R"\.$/m);
      expect(JSON.parse(program.out)).toMatchObject({
        ok: false,
        findings: [{ code: "cell-differs", table: "piece", column: "size", was: '"99"' }],
      });
    });
  });

  test("takes one piece by its id or by its tag's number, and reads nothing else", async () => {
    const tag = await original.database.app
      .selectFrom("tag")
      .select("number")
      .where("piece", "=", department.shell)
      .executeTakeFirstOrThrow();
    for (const text of [department.shell, tag.number, tag.number.toLowerCase()]) {
      const { code, out } = await run(["verify", "--piece", text, "--json"]);
      expect(code).toBe(0);
      expect(JSON.parse(out)).toMatchObject({ ok: true, piece: department.shell, findings: [] });
    }
  });

  test("of one piece finds a row that was changed, and an act that was changed", async () => {
    const ofHood = sql`(select id from piece where kind = 'hood')`;
    const tamperings = [
      [sql`update stay set evidence = 'typed' where piece = ${ofHood}`, "Table stay"],
      [
        sql`update act set device = 'x' where id in (select act from entry where subject = ${ofHood})`,
        "or an entry of it was changed",
      ],
    ] as const;
    for (const [tamper, words] of tamperings) {
      await withTampered(tamper, async (database) => {
        const hood = await database.app
          .selectFrom("piece")
          .select("id")
          .where("kind", "=", "hood")
          .executeTakeFirstOrThrow();
        const { code, out } = await run(["verify", "--piece", hood.id], database);
        expect(code).toBe(1);
        expect(out).toContain(words);
      });
    }
  });
});

describe("backup and restore", () => {
  const restored = (file: string) =>
    cloneTemplate().then(async ({ database, drop }) => {
      try {
        return await run(["restore", file, "--json"], database);
      } finally {
        await drop();
      }
    });

  test("a file written by the one is taken by the other, with the same seal", () =>
    withFolder(async (folder) => {
      const file = path.join(folder, "harrow.backup");
      const made = JSON.parse((await run(["backup", file, "--json"])).out) as { hash: string; bytes: number };
      expect(fs.statSync(file).size).toBe(made.bytes);
      expect(fs.statSync(file).mode & 0o777).toBe(0o600);
      expect(fs.readdirSync(folder)).toEqual(["harrow.backup"]);
      const back = await restored(file);
      expect(back.code).toBe(0);
      expect(JSON.parse(back.out)).toMatchObject({ ok: true, hash: made.hash, findings: [] });
    }));

  test("a file that is there already is not written over", () =>
    withFolder(async (folder) => {
      const file = path.join(folder, "there");
      fs.writeFileSync(file, "mine");
      expect(await run(["backup", file])).toMatchObject({ code: 2 });
      expect(fs.readFileSync(file, "utf8")).toBe("mine");
    }));

  test("a database that is not empty is left as it is", () =>
    withFolder(async (folder) => {
      const file = path.join(folder, "harrow.backup");
      await run(["backup", file]);
      const { code, out } = await run(["restore", file]);
      expect([code, out]).toEqual([
        1,
        "The database is not empty. Set DATA_DIR to a new folder, or DATABASE_URL to a new database.",
      ]);
    }));

  test.each([
    ["cut off while it was copied", (bytes: Buffer) => bytes.subarray(0, bytes.length - 20), "cut-off"],
    ["with one bit turned over", (bytes: Buffer) => turned(bytes, bytes.length >> 1), "damaged"],
    [
      "packed anew with a byte changed",
      (bytes: Buffer) => gzipSync(turned(gunzipSync(bytes), 5_000)),
      "damaged",
    ],
    ["that is another file", () => Buffer.from("number,name\n214,Bask\n"), "not-a-backup"],
    ["that is empty", () => Buffer.alloc(0), "not-a-backup"],
  ] as const)("a file %s is refused, and nothing of it is kept", (_, change, refusal) =>
    withFolder(async (folder) => {
      const file = path.join(folder, "harrow.backup");
      await run(["backup", file]);
      fs.writeFileSync(file, change(fs.readFileSync(file)));
      const { code, out } = await restored(file);
      expect(code).toBe(1);
      expect(JSON.parse(out)).toMatchObject({ refused: { code: refusal } });
    }),
  );
});

function turned(bytes: Buffer, at: number): Buffer {
  const copy = Buffer.from(bytes);
  copy.writeUInt8((copy.readUInt8(at) ^ 1) & 0xff, at);
  return copy;
}

test("officer-link prints a link that opens once, in the address that people use", async () => {
  const { code, out } = await run(["officer-link", "--json"]);
  expect(code).toBe(0);
  expect(JSON.parse(out)).toMatchObject({
    url: expect.stringMatching(/^https:\/\/gear\.example\.org\/link#[\w-]{43}$/),
  });
});
