import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { readBack } from "../../labels/draw/read-back.ts";
import { PRINTERS } from "../../labels/layout/printer.ts";
import { listMembersAct, namePlaceAct, registerPiecesAct } from "../../server/cases/register-acts.ts";
import { setUp } from "../../server/cases/set-up.ts";
import { attachTagAct } from "../../server/cases/tag-acts.ts";
import type { MemberId, PieceId, PlaceId } from "../../server/domain/ids.ts";
import { ACTION_CARDS } from "../../server/domain/register/policy.ts";
import type { TagNumber } from "../../server/domain/tags/tag-number.ts";
import type { MadeOn } from "../../server/domain/time.ts";
import { actor, aDraft, anId } from "../kit/acting.ts";
import { type ImportDesk, importDesk, type SeenJob } from "../kit/import-desk.ts";
import { standingClock } from "../kit/standing-clock.ts";
import { anAct, type SignedIn, type TestApp, testApp } from "../kit/test-app.ts";
import { useTestDatabase } from "../kit/test-database.ts";
import { rasterise, readDataMatrices, textOfPages } from "../labels/printed-pages.ts";

const db = useTestDatabase();
const clock = standingClock();
const cage = actor(() => db.app, "program manager", "2026-03-02T07:00:00Z");
const [RACK, MEMBER] = [anId<PlaceId>(), anId<MemberId>()];
const PIECES = Array.from({ length: 4 }, () => anId<PieceId>());
let app: TestApp;
let manager: SignedIn;
let desk: ImportDesk;

interface SeenRun {
  readonly id: string;
  readonly count: number;
  readonly states: Readonly<Record<string, number>>;
  readonly files: readonly { readonly n: number; readonly count: number }[];
  readonly job: SeenJob;
}

beforeAll(async () => {
  app = testApp(db, clock.now);
  await setUp(db.app, { nowMs: clock.now(), appBuild: "test", timeZone: "America/Chicago" });
  await cage.must(namePlaceAct, { id: RACK, name: "Rack B2", what: "rack", carries: "shared" });
  await cage.must(listMembersAct, { members: [{ id: MEMBER, number: "1042", name: "Corwin Bask" }] });
  const kinds = ["coat-shell", "coat-liner", "drd", "hood"];
  await cage.must(registerPiecesAct, {
    evidence: "typed",
    pieces: kinds.map((kind, at) =>
      aDraft(kind, RACK, { serial: `T-${at}`, linerCode: "LK-2", madeOn: "2022-03" as MadeOn }, PIECES[at]),
    ),
  });
  manager = await app.signedInAs("program manager");
  desk = importDesk(app, manager);
});
afterAll(async () => {
  await app.services.jobs.close();
  expect(app.faults).toEqual([]);
});

const usual = { stock: "roll", dpi: "203", ackCautions: true } as const;

/** Sends a print and gives the run once its job has ended. */
async function print(path: string, command: object, run = anId()): Promise<SeenRun> {
  const response = await desk.post(path, anAct(app, { run, ...command }));
  const answer = await response.json();
  expect([response.status, answer.code]).toEqual([200, undefined]);
  await desk.until(answer.job);
  return desk.get<SeenRun>(`/api/print-runs/${run}`);
}
async function printed(run: SeenRun): Promise<SeenRun> {
  const response = await desk.post(`/api/print-runs/${run.id}/printed`, anAct(app, {}));
  await desk.until((await response.json()).job);
  return desk.get<SeenRun>(`/api/print-runs/${run.id}`);
}
async function pdfOf(run: SeenRun, n = 1): Promise<Uint8Array> {
  const response = await app.send("GET", `/api/print-runs/${run.id}/files/${n}`, manager);
  expect([response.status, response.headers.get("content-type")]).toEqual([200, "application/pdf"]);
  return new Uint8Array(await response.arrayBuffer());
}
async function positionsOf(code: string): Promise<string> {
  const kind = await db.app
    .selectFrom("kind")
    .select("positions")
    .where("code", "=", code)
    .executeTakeFirst();
  return kind?.positions[0] ?? "";
}
const reservedFor = async (run: SeenRun) =>
  db.app.selectFrom("tag").selectAll().where("run", "=", run.id).orderBy("id").execute();

describe("a run of tags", () => {
  it("for chosen pieces has one number each, and another reader reads them from the downloaded file", async () => {
    const run = await print("/api/print-runs", { ...usual, pieces: PIECES });
    expect(run).toMatchObject({ count: 4, states: { reserved: 4 }, job: { state: "done" } });
    const pdf = await pdfOf(run);
    const tags = await reservedFor(run);
    const pages = await rasterise(pdf, PRINTERS["203"].dotsPerMm, "pdfjs");
    const read = await Promise.all(pages.map((page) => readDataMatrices(page, "zxing-wasm")));
    expect(read).toEqual(PIECES.map((piece) => [tags.find(({ meant_for }) => meant_for === piece)?.number]));
    const words = await textOfPages(pdf);
    expect(words[1]).toContain("Coat liner K7 LK-2");
    expect(words[1]).toContain("46 32 R Mar 2022");
    expect(words.join()).not.toMatch(/T-0|Rack|Bask|1042/);
  });

  it("of spare ones has the number alone, and 1,100 of them come as two files", async () => {
    const run = await print("/api/print-runs", { ...usual, spare: 1_100 });
    expect(run.files.map(({ count }) => count)).toEqual([1_000, 100]);
    const read = (await Promise.all(run.files.map(async ({ n }) => readBack(await pdfOf(run, n))))).flat();
    expect(new Set(read).size).toBe(1_100);
    expect(read.toSorted()).toEqual((await reservedFor(run)).map(({ number }) => number).toSorted());
  });

  it("on sheets begins after the places that are used, and brings the ruler page along", async () => {
    const run = await print("/api/print-runs", { ...usual, stock: "Letter 3 × 10", used: 28, spare: 5 });
    expect(run.files.map(({ count }) => count)).toEqual([5, 0]);
    const pages = await rasterise(await pdfOf(run), PRINTERS["203"].dotsPerMm, "pdfjs");
    expect(pages).toHaveLength(2);
    const ruler = await app.send("GET", `/api/print-runs/${run.id}/files/2?shown=inline`, manager);
    expect(ruler.headers.get("content-disposition")).toMatch(
      /^inline; filename="ruler page Letter 3 _ 10\.pdf"/,
    );
  });

  it("can be fixed and scanned back only after somebody said that it was printed", async () => {
    const run = await print("/api/print-runs", { ...usual, pieces: [PIECES[0]] });
    const [tag] = await reservedFor(run);
    const kind = await positionsOf("coat-shell");
    const command = {
      ...{ piece: PIECES[0] as PieceId, number: tag?.number as TagNumber },
      ...{ position: kind, proof: "scanned" as const },
    };
    expect(await cage.refusalsOf(attachTagAct, command, "2026-03-02T08:00:01Z")).toEqual(["tag"]);
    expect((await printed(run)).states).toEqual({ printed: 1 });
    await cage.must(attachTagAct, command, "2026-03-02T08:00:02Z");
    expect((await desk.get<SeenRun>(`/api/print-runs/${run.id}`)).states).toEqual({ attached: 1 });
  });

  it("is drawn again as a run of its own without the tags that are on pieces or void", async () => {
    const first = await printed(await print("/api/print-runs", { ...usual, pieces: PIECES.slice(1, 3) }));
    const [one, two] = await reservedFor(first);
    const kind = await positionsOf("coat-liner");
    await cage.must(
      attachTagAct,
      {
        ...{ piece: PIECES[1] as PieceId, number: one?.number as TagNumber },
        ...{ position: kind, proof: "scanned" as const },
      },
      "2026-03-02T08:00:03Z",
    );
    const again = await print(`/api/print-runs/${first.id}/again`, { ...usual, dpi: "300" });
    expect(again).toMatchObject({ count: 1, states: { printed: 1 } });
    expect(await readBack(await pdfOf(again))).toEqual([two?.number]);
    expect((await printed(again)).states).toEqual({ printed: 1 });
    const entries = await db.app
      .selectFrom("entry")
      .select("kind")
      .where("subject", "=", two?.id ?? "")
      .execute();
    expect(entries.map(({ kind: name }) => name)).toEqual(["TagReserved", "TagPrinted", "TagPrinted"]);
  });

  it("whose words do not fit is refused whole, by the piece's name, before a number is reserved", async () => {
    const long = anId<PieceId>();
    const label = { modelName: "Ridge 40 with the very long model name", serial: "LONG-1" };
    await cage.must(registerPiecesAct, { evidence: "typed", pieces: [aDraft("hood", RACK, label, long)] });
    const run = anId();
    const before = await db.app.selectFrom("tag").select("id").execute();
    const refused = await print("/api/print-runs", { ...usual, pieces: [PIECES[3], long] }, run);
    expect(refused.job).toMatchObject({ state: "refused", reasons: [{ code: "text-does-not-fit" }] });
    expect(JSON.stringify(refused.job.reasons)).toContain("serial LONG-1");
    expect(await db.app.selectFrom("tag").select("id").execute()).toHaveLength(before.length);
    const shorter = { ...usual, words: "without the model", pieces: [PIECES[3], long] };
    expect((await print("/api/print-runs", shorter)).job.state).toBe("done");
  });

  it("is not drawn unless the cautions were read, nor on a sheet with no place left, nor for a piece nobody knows", async () => {
    const asked = (command: object) => desk.post("/api/print-runs", anAct(app, { run: anId(), ...command }));
    const unread = await asked({ stock: "roll", dpi: "203", spare: 1 });
    expect([unread.status, (await unread.json()).detail]).toEqual([422, expect.stringContaining("cautions")]);
    const used = await print("/api/print-runs", { ...usual, stock: "A4 3 × 7", used: 21, spare: 1 });
    expect(used.job.reasons).toMatchObject([{ code: "sheet-used-up" }]);
    const unknown = await print("/api/print-runs", { ...usual, pieces: [anId()] });
    expect(unknown.job.state).toBe("refused");
    expect((await asked({ ...usual, spare: 1, pieces: PIECES })).status).toBe(422);
    expect((await asked({ ...usual, spare: 10_001 })).status).toBe(422);
  });

  it("that is sent twice reserves its numbers once", async () => {
    const run = anId();
    const act = anAct(app, { run, ...usual, spare: 3 });
    const both = await Promise.all([desk.post("/api/print-runs", act), desk.post("/api/print-runs", act)]);
    for (const each of both) await desk.until((await each.json()).job);
    const rows = await db.app.selectFrom("tag").select("id").where("run", "=", run).execute();
    expect(rows).toHaveLength(3);
  });

  it("lists the pieces that still carry no live tag, and says for which a tag is waiting", async () => {
    const seen = await desk.get<{ ids: string[]; pieces: { id: string; waits: boolean }[] }>(
      `/api/untagged-pieces?place=${RACK}`,
    );
    expect(seen.ids).not.toContain(PIECES[0]);
    expect(seen.pieces.find(({ id }) => id === PIECES[3])?.waits).toBe(true);
    const hoods = await desk.get<{ ids: string[] }>("/api/untagged-pieces?kind=helmet");
    expect(hoods.ids).toEqual([]);
  });
});

describe("cards", () => {
  it("of places and members get their numbers as one act, and keep them when they are printed again", async () => {
    const wanted = { stock: "A4", dpi: "203", places: [RACK], members: [MEMBER] };
    const first = await print("/api/card-runs", wanted);
    const place = await db.app.selectFrom("place").select("number").where("id", "=", RACK).executeTakeFirst();
    const member = await db.app
      .selectFrom("member")
      .select("card")
      .where("id", "=", MEMBER)
      .executeTakeFirst();
    const numbers = [place?.number, member?.card];
    expect(await readBack(await pdfOf(first))).toEqual(numbers);
    const again = await print("/api/card-runs", wanted);
    expect(await readBack(await pdfOf(again))).toEqual(numbers);
    const words = (await textOfPages(await pdfOf(again))).join();
    expect(words).toContain("Transfer to Rack B2");
    expect(words).not.toMatch(/Bask|1042/);
  });

  it("of actions are those that the department has numbers for, one for each action of the bench", async () => {
    const run = await print("/api/card-runs", { stock: "single", dpi: "300", actions: true });
    const numbers = await readBack(await pdfOf(run));
    expect(numbers).toHaveLength(ACTION_CARDS.length);
    for (const number of numbers) {
      const named = await db.app
        .selectFrom("numbered")
        .select("names")
        .where("number", "=", number ?? "")
        .executeTakeFirst();
      expect(named?.names).toBe("action");
    }
  });

  it("of badges are the program manager's to print, and say who has none yet", async () => {
    const technician = await app.signedInAs("technician");
    const body = anAct(app, { run: anId(), stock: "A4", dpi: "203", accounts: [technician.account] });
    expect((await app.send("POST", "/api/card-runs", { cookie: technician.cookie, body })).status).toBe(403);
    const without = await print("/api/card-runs", {
      stock: "A4",
      dpi: "203",
      accounts: [technician.account],
    });
    expect(without.job.reasons).toMatchObject([{ code: "no-badge" }]);
    await desk.post("/api/acts/giveBadge", anAct(app, { account: technician.account }));
    const run = await print("/api/card-runs", { stock: "A4", dpi: "203", accounts: [technician.account] });
    const account = await db.app
      .selectFrom("account")
      .select("badge")
      .where("id", "=", technician.account)
      .executeTakeFirst();
    expect(await readBack(await pdfOf(run))).toEqual([account?.badge]);
  });
});

describe("a symbol", () => {
  it("comes as rows of modules that never change, and reads as its number", async () => {
    const [tag] = await db.app.selectFrom("tag").select("number").limit(1).execute();
    const response = await app.send("GET", `/api/symbols/${tag?.number}`, manager);
    expect(response.headers.get("cache-control")).toContain("immutable");
    const { rows }: { rows: string[] } = await response.json();
    expect(rows.map((row) => row.length)).toEqual(Array.from({ length: 16 }, () => 16));
    const { readSymbol } = await import("../../labels/draw/read-symbol.ts");
    const dark = rows.flatMap((row) => [...row].map((module) => module === "1"));
    expect(readSymbol({ size: 16, dark })).toBe(tag?.number);
    expect((await app.send("GET", "/api/symbols/C7K3F92CXTKX", manager)).status).toBe(422);
  });
});
