import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { namePlaceAct } from "../../server/cases/register-acts.ts";
import { setUp } from "../../server/cases/set-up.ts";
import type { PlaceId } from "../../server/domain/ids.ts";
import { openJobs } from "../../server/jobs/open-jobs.ts";
import { actor, anId } from "../kit/acting.ts";
import { type ImportDesk, importDesk } from "../kit/import-desk.ts";
import { standingClock } from "../kit/standing-clock.ts";
import { anAct, type SignedIn, type TestApp, testApp } from "../kit/test-app.ts";
import { useTestDatabase } from "../kit/test-database.ts";

const db = useTestDatabase();
const clock = standingClock();
const RACK = anId<PlaceId>();
const STATION = anId<PlaceId>();
let app: TestApp;
let manager: SignedIn;
let desk: ImportDesk;

beforeAll(async () => {
  app = testApp(db, clock.now);
  await setUp(db.app, { nowMs: clock.now(), appBuild: "test", timeZone: "America/Chicago" });
  const cage = actor(() => db.app, "program manager", "2026-03-02T07:00:00Z");
  await cage.must(namePlaceAct, { id: RACK, name: "Rack B2", what: "rack", carries: "shared" });
  await cage.must(namePlaceAct, { id: STATION, name: "Station 3", what: "station", carries: "shared" });
  manager = await app.signedInAs("program manager");
  desk = importDesk(app, manager);
});
afterAll(async () => {
  await app.services.jobs.close();
  expect(app.faults).toEqual([]);
});

const count = async () => (await db.app.selectFrom("piece").select("id").execute()).length;
const acts = async () => (await db.app.selectFrom("act").select("id").execute()).length;

describe("a file of pieces", () => {
  it("comes in whole as one act, with its holders, its use, its foreign codes and its notes, all as imported", async () => {
    const roster = await desk.bring("members", "Number,Name\r\n1042,Corwin Bask\r\n");
    await desk.accept(roster);
    const before = await acts();
    const seen = await desk.bring(
      "pieces",
      [
        "Kind,Maker,Model,Size,Serial,Made,Place,Member,Set,Old number,Label read,Note",
        "Coat outer shell,Tarnholt,Ridge 40,46 32 R,T-1,2019-03,Rack B2,1042,second,00123,yes,cuff mended",
        "coat liner,Tarnholt,RL 4,46 32 R,T-2,2019-03,,1042,,,,",
        "hood,,,,,,,,,,,",
      ].join("\r\n"),
    );
    expect(seen.preview).toMatchObject({ rows: 3, accepted: 3, parked: 0 });
    const done = await desk.accept(seen);
    expect(done.broughtIn).toMatchObject({ accepted: 3, parked: 0 });
    expect(await acts()).toBe(before + 1);
    const pieces = await db.app.selectFrom("piece").selectAll().orderBy("serial").execute();
    expect(
      pieces.map(({ kind, holder_kind, holder, set_name, label_reading }) => {
        return [kind, holder_kind, holder, set_name, label_reading];
      }),
    ).toEqual([
      ["coat-shell", "place", RACK, "second", "read"],
      ["coat-liner", "member", expect.any(String), "first set", "not yet read"],
      ["hood", "whereabouts unknown", null, null, "not yet read"],
    ]);
    const code = await db.app.selectFrom("foreign_code").selectAll().executeTakeFirstOrThrow();
    expect([code.code, code.piece]).toEqual(["00123", pieces[0]?.id]);
    const entries = await db.app
      .selectFrom("entry")
      .select("bytes")
      .where("act", "=", done.broughtIn?.act ?? "")
      .execute();
    const evidence = entries.map(({ bytes }) => JSON.parse(bytes.toString()).evidence);
    expect(evidence).toEqual(["imported", "imported", "imported", "imported"]);
    const note = await db.app.selectFrom("entry_text").select("body").executeTakeFirst();
    expect(note?.body).toBe("cuff mended");
  });

  it("has every problem told at its row and column, and the parked rows come down with their reasons", async () => {
    const before = await count();
    const seen = await desk.bring(
      "pieces",
      "Kind;Maker;Serial;Made;Place\r\ncoat;Tarnholt;A-1;03/04/2019;Rack Z\r\nhood;Tarnholt;A-2;2019-03;Rack B2\r\n",
    );
    expect(seen.preview).toMatchObject({ rows: 2, accepted: 1, parked: 1 });
    expect(seen.preview?.missingPlaces).toEqual([{ name: "Rack Z", what: "place", rows: 1 }]);
    const { problems } = await desk.get<{ problems: object[] }>(`/api/imports/${seen.id}/problems`);
    expect(problems).toEqual([
      expect.objectContaining({ row: 2, column: 0, header: "Kind", code: "kind-unclear", value: "coat" }),
      expect.objectContaining({ row: 2, column: 3, code: "date-unreadable", value: "03/04/2019" }),
      expect.objectContaining({ row: 2, column: 4, code: "not-in-register", value: "Rack Z" }),
    ]);
    const done = await desk.accept(seen);
    expect(done.broughtIn).toMatchObject({ accepted: 1, parked: 1 });
    expect(await count()).toBe(before + 1);
    const parked = await app.send("GET", `/api/import-files/${done.broughtIn?.sha256}/parked`, manager);
    expect(parked.headers.get("content-disposition")).toContain('filename="gear parked.csv"');
    const text = Buffer.from(await parked.arrayBuffer()).toString("utf8");
    expect(text.split("\r\n")).toEqual([
      "\ufeffKind;Maker;Serial;Made;Place;Row in the file;Why this row was parked",
      expect.stringMatching(/^coat;Tarnholt;A-1;03\/04\/2019;Rack Z;2;"Kind: "".*Made: .*Place: no place/),
      "",
    ]);
  });

  it("that was parked and mended comes in with the headers that it came down with", async () => {
    const mended =
      "Kind;Maker;Serial;Row in the file;Why this row was parked\r\ncoat liner;Tarnholt;A-1;2;Kind: …\r\n";
    const done = await desk.accept(await desk.bring("pieces", mended));
    expect(done.broughtIn?.accepted).toBe(1);
  });

  it("changes nothing the second time, and says when and by whom it was brought in", async () => {
    const file = "Kind,Maker,Serial\r\nhood,Tarnholt,TWICE-1\r\n";
    await desk.accept(await desk.bring("pieces", file));
    const [pieces, written] = [await count(), await acts()];
    const again = await desk.bring("pieces", file, "another name.csv");
    expect(again.job).toBeUndefined();
    expect(again.broughtIn).toMatchObject({ accepted: 1, parked: 0, by: expect.any(String) });
    const read = await desk.read(again.id, {});
    const forced = await desk.accept(read);
    expect(forced.job).toMatchObject({ state: "refused" });
    expect([await count(), await acts()]).toEqual([pieces, written]);
  });

  it("that two people accept at once is written once", async () => {
    const file = "Kind,Maker,Serial\r\nhood,Tarnholt,BOTH-1\r\n";
    const other = importDesk(app, await app.signedInAs("technician"));
    const [mine, theirs] = [await desk.bring("pieces", file), await other.bring("pieces", file)];
    const before = await acts();
    await Promise.all([desk.accept(mine), other.accept(theirs)]);
    expect(await acts()).toBe(before + 1);
    const rows = await db.app.selectFrom("piece").select("id").where("serial", "=", "BOTH-1").execute();
    expect(rows).toHaveLength(1);
  });

  it("parks rows whose serial is in the file twice or in the register already, whatever the case", async () => {
    await desk.accept(
      await desk.bring("pieces", "Kind,Maker,Serial,Barcode\r\nhood,Tarnholt,S-9,CODE-9\r\n"),
    );
    const seen = await desk.bring(
      "pieces",
      "Kind,Maker,Serial,Barcode\r\nhood,tarnholt,s-9,\r\nhood,Tarnholt,S-10,\r\nhood,TARNHOLT,s-10,\r\nhood,,,code-9\r\nhelmet,Tarnholt,S-9,\r\n",
    );
    const { problems } = await desk.get<{ problems: { row: number; code: string }[] }>(
      `/api/imports/${seen.id}/problems`,
    );
    expect(problems.map(({ row, code }) => [row, code])).toEqual([
      [2, "in-register-already"],
      [3, "same-in-file"],
      [4, "same-in-file"],
      [5, "in-register-already"],
    ]);
    expect(seen.preview?.accepted).toBe(1);
  });

  it("is read anew when the register changed since its preview, and nothing is written meanwhile", async () => {
    const seen = await desk.bring(
      "pieces",
      "Kind,Maker,Serial,Place\r\nhood,Tarnholt,LATE-1,Rack Q\r\nhood,Tarnholt,LATE-2,\r\n",
    );
    expect(seen.preview?.accepted).toBe(1);
    const cage = actor(() => db.app, "program manager", "2026-03-02T07:30:00Z");
    await cage.must(namePlaceAct, { id: anId<PlaceId>(), name: "Rack Q", what: "rack", carries: "shared" });
    const before = await count();
    const changed = await desk.accept(seen);
    expect(changed.job).toMatchObject({ state: "refused", reasons: [{ code: "register-changed" }] });
    expect(await count()).toBe(before);
    expect(changed.preview?.accepted).toBe(2);
    expect((await desk.accept(changed)).broughtIn?.accepted).toBe(2);
  });

  it("has its columns mapped by hand, and no row is read while a required one has no column", async () => {
    const seen = await desk.bring("pieces", "What,Whose make,No\r\nhood,Tarnholt,M-1\r\n");
    expect(seen.preview).toMatchObject({ missing: ["kind"], rows: 0, unused: expect.arrayContaining([0]) });
    const mapped = await desk.read(seen.id, { kind: 0, maker: 1, serial: 2 });
    expect(mapped.preview).toMatchObject({ missing: [], accepted: 1 });
    await desk.accept(mapped);
    const row = await db.app
      .selectFrom("piece")
      .select("maker")
      .where("serial", "=", "M-1")
      .executeTakeFirst();
    expect(row?.maker).toBe("Tarnholt");
    const strange = await desk.post(`/api/imports/${seen.id}/read`, { columns: { colour: 1 } });
    expect(strange.status).toBe(422);
  });

  it("in Windows-1252 and with cells that a spreadsheet would run comes in as it was written", async () => {
    const bytes = Buffer.concat([
      Buffer.from("Kind,Maker,Serial,Note\r\nhood,T"),
      Buffer.from([0xe4]),
      Buffer.from("rnholt \x96 Nord,'=1+1,'+49 5\r\n", "latin1"),
    ]);
    await desk.accept(await desk.bring("pieces", bytes));
    const row = await db.app.selectFrom("piece").selectAll().where("serial", "=", "=1+1").executeTakeFirst();
    expect(row?.maker).toBe("Tärnholt – Nord");
    const note = await db.app
      .selectFrom("entry_text")
      .select("body")
      .where("body", "=", "+49 5")
      .executeTakeFirst();
    expect(note).toBeDefined();
  });
});

describe("a file that cannot be read", () => {
  const refusals = [
    ["with nothing in it", Buffer.alloc(0), "file-empty"],
    ["of blanks alone", Buffer.from(" \r\n\r\n"), "file-empty"],
    ["that is a workbook", Buffer.from([0x50, 0x4b, 3, 4, 1, 2]), "file-of-another-kind"],
    ["that is binary", Buffer.from([0x41, 0, 1, 2]), "file-binary"],
    ["of 21 MB", Buffer.alloc(21 * 1024 * 1024, "Kind,Maker\r\n"), "file-too-large"],
    ["of 60,000 rows", Buffer.from(`Kind\r\n${"hood\r\n".repeat(60_000)}`), "too-many-rows"],
    ["with a quote that never closes", Buffer.from('Kind,Note\r\nhood,"x\r\n'), "quote-never-closes"],
  ] as const;
  it.each(refusals)("%s is told why and what next", async (_, bytes, code) => {
    const seen = await desk.bring("pieces", bytes);
    expect(seen.job).toMatchObject({ state: "refused", reasons: [{ code }] });
    expect(seen.job?.reasons[0]?.next).toMatch(/\.$/);
    expect(seen.preview).toBeUndefined();
  });

  it("of headers alone has nothing to bring in, and accepting it says so", async () => {
    const seen = await desk.bring("pieces", "Kind,Maker\r\n");
    expect(seen.preview).toMatchObject({ rows: 0, accepted: 0, parked: 0 });
    expect((await desk.accept(seen)).job).toMatchObject({
      state: "refused",
      reasons: [{ code: "nothing-new" }],
    });
  });

  it("of 40 MB is refused before it is kept", async () => {
    const contentBase64 = "A".repeat(40 * 1024 * 1024);
    const response = await desk.post("/api/imports/pieces", { name: "big.csv", contentBase64 });
    expect([response.status, (await response.json()).code]).toEqual([413, "too-large"]);
  });
});

describe("a roster and a model table", () => {
  it("list members anew by their number, and leave alone who is listed so already", async () => {
    const first = await desk.accept(
      await desk.bring(
        "members",
        "Number,First,Last,Station,Shift\r\n7,Inez,Calloway,Station 3,A\r\n8,Petra,Oxholm,,\r\n",
      ),
    );
    expect(first.broughtIn?.accepted).toBe(2);
    const second = await desk.bring(
      "members",
      "Number,Name,Shift\r\n7,Inez Calloway,B\r\n8,Petra Oxholm,\r\n9,,\r\n",
    );
    expect(second.preview?.counts).toEqual({ fresh: 1, changed: 1, same: 1 });
    await desk.accept(second);
    const member = await db.app.selectFrom("member").selectAll().where("number", "=", "7").executeTakeFirst();
    expect([member?.station, member?.shift]).toEqual([STATION, "B"]);
    const commands = await db.app
      .selectFrom("entry")
      .select("bytes")
      .where("subject_kind", "=", "member")
      .execute();
    expect(commands.map(({ bytes }) => bytes.toString()).join()).not.toMatch(/Calloway|Oxholm/);
  });

  it("describe models that take each other, and the same table again says nothing new", async () => {
    const table =
      "Maker,Model,Kind,Layers,Takes layer,Takes model\r\nTarnholt,Kite 2,coat shell,coat liner,coat liner,KL 1\r\nTarnholt,KL 1,coat liner,,,\r\n";
    const seen = await desk.bring("models", table);
    expect(seen.preview?.counts).toEqual({ fresh: 2, changed: 0, same: 0 });
    await desk.accept(seen);
    const taken = await db.app
      .selectFrom("model_takes as t")
      .innerJoin("model as m", "m.id", "t.takes_model")
      .select("m.name")
      .execute();
    expect(taken).toEqual([{ name: "KL 1" }]);
    const again = await desk.bring("models", `${table}\r\n`);
    expect(again.preview?.counts).toEqual({ fresh: 0, changed: 0, same: 2 });
    expect((await desk.accept(again)).job?.reasons).toMatchObject([{ code: "nothing-new" }]);
  });
});

describe("who may", () => {
  it("bring in members is the program manager alone, and a reader brings in nothing", async () => {
    const technician = await app.signedInAs("technician");
    const body = { name: "a.csv", contentBase64: "" };
    const ask = async (what: string, who: SignedIn) =>
      (await app.send("POST", `/api/imports/${what}`, { cookie: who.cookie, body })).status;
    expect([await ask("members", technician), await ask("models", technician)]).toEqual([403, 403]);
    expect(await ask("pieces", await app.signedInAs("reader"))).toBe(403);
  });

  it("see a job and its file is who started it and the program manager; to others it is not there", async () => {
    const [one, other] = [await app.signedInAs("technician"), await app.signedInAs("inspector")];
    const seen = await importDesk(app, one).bring("pieces", "Kind\r\nhood\r\n");
    const status = async (who: SignedIn, path: string) =>
      (await app.send("GET", path, { cookie: who.cookie })).status;
    for (const path of [`/api/jobs/${seen.job?.id}`, `/api/imports/${seen.id}`]) {
      expect([await status(one, path), await status(manager, path), await status(other, path)]).toEqual([
        200, 200, 404,
      ]);
    }
    const act = anAct(app, { digest: seen.preview?.digest });
    const taken = await app.send("POST", `/api/imports/${seen.id}/accept`, {
      cookie: other.cookie,
      body: act,
    });
    expect(taken.status).toBe(404);
  });
});

describe("a job", () => {
  it("that is cancelled while it waits or runs writes nothing, and a server that is gone is told as such", async () => {
    const rows = Array.from({ length: 3_000 }, (_, n) => `hood,Tarnholt,C-${n}`).join("\r\n");
    const seen = await desk.bring("pieces", `Kind,Maker,Serial\r\n${rows}\r\n`);
    const before = await count();
    const act = anAct(app, { digest: seen.preview?.digest });
    const started = await (await desk.post(`/api/imports/${seen.id}/accept`, act)).json();
    await desk.post(`/api/jobs/${started.job}/cancel`, {});
    expect((await desk.until(started.job)).state).toBe("cancelled");
    expect(await count()).toBe(before);
    expect((await desk.get<{ broughtIn?: object }>(`/api/imports/${seen.id}`)).broughtIn).toBeUndefined();
    const again = await desk.accept(seen);
    expect(again.broughtIn?.accepted).toBe(3_000);
    await db.app
      .updateTable("job")
      .set({ ended_at: null, state: "running", beat_at: "2020-01-01T00:00:00Z" })
      .where("id", "=", started.job)
      .execute();
    expect(await desk.until(started.job)).toMatchObject({
      state: "failed",
      reasons: [{ code: "server-gone" }],
    });
  });

  it("whose thread falls over is told as failed, with the fault for whoever runs the server", async () => {
    const faults: unknown[] = [];
    const threadFile = new URL("./no-such-thread.ts", import.meta.url);
    const jobs = openJobs({
      ...{ db: db.app, databaseUrl: db.appUrl, now: clock.now, threadFile },
      onFault: (fault) => faults.push(fault),
    });
    const job = await jobs.start({ what: "read file", about: anId() }, manager.account);
    expect(await desk.until(job ?? "")).toMatchObject({ state: "failed", reasons: [{ code: "fault" }] });
    await jobs.close();
    expect(String(faults[0])).toContain("no-such-thread");
  });

  it("is not taken while too many wait, and the server says so", async () => {
    const sent = await Promise.all(
      Array.from({ length: 40 }, (_, n) =>
        desk.post("/api/imports/pieces", {
          name: "many.csv",
          contentBase64: Buffer.from(`Kind\r\nhood ${n}`).toString("base64"),
        }),
      ),
    );
    const answers = await Promise.all(sent.map((each) => each.json()));
    const refused = sent.filter(({ status }) => status === 503);
    expect(refused.length).toBeGreaterThan(0);
    expect(answers.find(({ code }) => code)?.code).toBe("queue-full");
    for (const { job } of answers) if (job) await desk.post(`/api/jobs/${job}/cancel`, {});
  });
});
