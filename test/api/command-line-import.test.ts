import fs from "node:fs";
import path from "node:path";
import { beforeAll, describe, expect, test } from "vitest";
import { kyselyOn, openPool } from "../../db/connect.ts";
import { readBack } from "../../labels/draw/read-back.ts";
import { setUp } from "../../server/cases/set-up.ts";
import type { House } from "../../server/cli/command.ts";
import { runCommandLine } from "../../server/cli/run-command-line.ts";
import { withFolder } from "../kit/running-house.ts";
import { useTestDatabase } from "../kit/test-database.ts";

const db = useTestDatabase();
beforeAll(() => setUp(db.app, { nowMs: Date.now(), appBuild: "test", timeZone: "America/Chicago" }));

async function run(...args: string[]) {
  const [out, err, phases]: [string[], string[], Set<string>] = [[], [], new Set()];
  const house: House = {
    async open() {
      const opened = kyselyOn(openPool(db.appUrl, { max: 4 }));
      return { db: opened, landed: [], close: () => opened.destroy() };
    },
    progress: ({ phase }) => phases.add(phase),
    now: Date.now,
    address: "https://gear.example.org",
  };
  const voices = { out: (line: string) => out.push(line), err: (line: string) => err.push(line) };
  const code = await runCommandLine(args, house, voices, () => undefined);
  return { code, out: out.join("\n"), err: err.join("\n"), phases };
}
const countOf = async (table: "piece" | "tag" | "import_upload") =>
  (await db.app.selectFrom(table).select("id").execute()).length;

describe("layertrail import", () => {
  const GOOD = "Kind,Maker,Serial\r\nhood,Tarnholt,CL-1\r\nhelmet,Tarnholt,CL-2\r\n";

  test("brings in a file as one act with progress, and a second time changes nothing", () =>
    withFolder(async (folder) => {
      const file = path.join(folder, "gear.csv");
      fs.writeFileSync(file, GOOD);
      const dry = await run("import", file, "--dry-run");
      expect([dry.code, dry.out]).toEqual([
        0,
        expect.stringContaining("2 rows, 2 can come in, 0 are parked."),
      ]);
      expect([await countOf("piece"), await countOf("import_upload")]).toEqual([0, 0]);
      const done = await run("import", file);
      expect([done.code, done.out]).toEqual([0, expect.stringContaining("Written as one act: 2 new")]);
      expect([...done.phases]).toEqual(["characters", "rows"]);
      expect([await countOf("piece"), await countOf("import_upload")]).toEqual([2, 0]);
      const again = await run("import", file, "--json");
      expect([again.code, JSON.parse(again.out)]).toMatchObject([
        0,
        { isWritten: false, broughtIn: { accepted: 2 } },
      ]);
      expect(await countOf("piece")).toBe(2);
    }));

  test("writes nothing while a row is parked, unless --yes, and the parked rows go to a file", () =>
    withFolder(async (folder) => {
      const [file, parked] = [path.join(folder, "gear.csv"), path.join(folder, "parked.csv")];
      fs.writeFileSync(file, "Kind,Serial\r\nhood,CL-3\r\ncoat,CL-4\r\n");
      const before = await countOf("piece");
      const stopped = await run("import", file, "--parked", parked);
      expect([stopped.code, stopped.out]).toEqual([1, expect.stringContaining('row 3: Kind: "coat" may be')]);
      expect(await countOf("piece")).toBe(before);
      expect(fs.readFileSync(parked, "utf8")).toContain("coat,CL-4,3,");
      const written = await run("import", file, "--yes");
      expect([written.code, await countOf("piece")]).toEqual([0, before + 1]);
    }));

  test("takes columns by header or number", () =>
    withFolder(async (folder) => {
      const file = path.join(folder, "gear.csv");
      fs.writeFileSync(file, "Thing,Old = new,X\r\nhood,N-77,Tarnholt\r\n");
      const missing = await run("import", file);
      expect([missing.code, missing.out]).toEqual([1, expect.stringContaining("no column holds kind")]);
      const odd = await run("import", file, "--map", "Nowhere=kind");
      expect([odd.code, odd.err]).toEqual([2, expect.stringContaining('no column "Nowhere"')]);
      const maps = ["--map", "Thing=kind", "--map", "Old = new=foreignCode", "--map", "3=maker"];
      expect((await run("import", file, ...maps)).code).toBe(0);
      const code = await db.app.selectFrom("foreign_code").select("code").execute();
      expect(code).toEqual([{ code: "N-77" }]);
    }));

  test("says what is wrong with a file that is none, and with options that mean nothing", () =>
    withFolder(async (folder) => {
      const book = path.join(folder, "gear.xlsx");
      fs.writeFileSync(book, Buffer.from([0x50, 0x4b, 3, 4]));
      expect(await run("import", book)).toMatchObject({
        code: 1,
        out: expect.stringContaining("a workbook"),
      });
      expect((await run("import", path.join(folder, "none.csv"))).code).toBe(2);
      expect((await run("import", book, "--what", "hoses")).code).toBe(2);
    }));
});

describe("layertrail tags", () => {
  test("draws tags for a list of pieces once the cautions are read, and says when they are printed", () =>
    withFolder(async (folder) => {
      const [list, out] = [path.join(folder, "list.txt"), path.join(folder, "tags.pdf")];
      fs.writeFileSync(list, "cl-1\r\nN-77\n\n");
      const args = ["tags", "--pieces", list, "--out", out, "--dpi", "300"];
      const unread = await run(...args);
      expect([unread.code, fs.existsSync(out)]).toEqual([1, false]);
      expect(unread.out).toContain("A tag can count as a change to the garment.");
      const drawn = await run(...args, "--cautions-read", "--json");
      const { run: id, tags } = JSON.parse(drawn.out);
      expect([drawn.code, tags]).toEqual([0, 2]);
      const rows = await db.app.selectFrom("tag").select("number").where("run", "=", id).execute();
      expect((await readBack(fs.readFileSync(out))).toSorted()).toEqual(
        rows.map(({ number }) => number).toSorted(),
      );
      expect((await run("tags", "--printed", id)).code).toBe(0);
      const states = await db.app.selectFrom("tag").select("state").where("run", "=", id).execute();
      expect(states).toEqual([{ state: "printed" }, { state: "printed" }]);
    }));

  test("draws spare ones on a sheet, and refuses what it cannot take in one line each", () =>
    withFolder(async (folder) => {
      const out = path.join(folder, "spare.pdf");
      const sheet = ["--stock", "Letter 3 × 10", "--used", "29", "--cautions-read"];
      const drawn = await run("tags", "--spare", "3", "--out", out, ...sheet, "--json");
      expect(JSON.parse(drawn.out)).toMatchObject({
        isDrawn: true,
        tags: 3,
        files: [out, out.replace(".pdf", "-2.pdf")],
      });
      const other = path.join(folder, "other.pdf");
      const read = ["--out", other, "--cautions-read"];
      expect((await run("tags", "--spare", "3", "--out", out, "--cautions-read")).code).toBe(2);
      expect((await run("tags", ...read)).err).toContain("one of --spare, --pieces and --untagged");
      expect((await run("tags", "--spare", "0", ...read)).code).toBe(2);
      expect((await run("tags", "--spare", "1", "--stock", "A5", ...read)).code).toBe(2);
      const list = path.join(folder, "list.txt");
      fs.writeFileSync(list, "nothing like it\n");
      expect((await run("tags", "--pieces", list, ...read)).err).toContain(
        '"nothing like it" names no piece',
      );
      expect(fs.existsSync(other)).toBe(false);
    }));
});
