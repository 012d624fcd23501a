import { sql } from "kysely";
import { beforeAll, describe, expect, test } from "vitest";
import {
  installLayerAct,
  movePiecesAct,
  placeHoldAct,
  recordFoundAct,
  separateLayersAct,
} from "../../server/cases/bench-acts.ts";
import { correctMoveAct } from "../../server/cases/correct-acts.ts";
import { registerPiecesAct } from "../../server/cases/register-acts.ts";
import { readTrail } from "../../server/cases/trail.ts";
import type { PieceId } from "../../server/domain/ids.ts";
import type { TrailView } from "../../server/domain/page-views.ts";
import type { MakersLabel } from "../../server/domain/pieces/label.ts";
import { aDraft } from "../kit/acting.ts";
import { aLiveTag } from "../kit/scanning.ts";
import { type Department, openDepartment, scanned } from "../kit/small-department.ts";
import { useTestDatabase } from "../kit/test-database.ts";

const database = useTestDatabase();
const NOW = Date.parse("2026-11-24T10:15:00Z");
let house: Department;

beforeAll(async () => {
  house = await openDepartment(() => database.app);
});

async function register(kind: string, label: MakersLabel = {}, at?: string): Promise<PieceId> {
  const draft = aDraft(kind, house.rack, label);
  await house.inez.must(registerPiecesAct, { pieces: [draft], evidence: "typed" }, at);
  return draft.id;
}
async function trail(piece: PieceId, knownAt?: number): Promise<TrailView> {
  const read = await readTrail(database.app, piece, NOW, knownAt);
  if ("missing" in read) throw new Error(`There is no ${read.missing}.`);
  return read;
}
async function head(): Promise<number> {
  return (await database.app.selectFrom("ledger_head").select("position").executeTakeFirstOrThrow()).position;
}
const atBench = () => ({ kind: "place" as const, id: house.bench });
const atRack = () => ({ kind: "place" as const, id: house.rack });
const withCorwin = () => ({ kind: "member" as const, id: house.corwin });

describe("a trail", () => {
  test("tells every entry of the piece and of its tags with who, when and how, in the order of recording", async () => {
    const hood = await register("hood", {}, "2026-03-03T08:00:00Z");
    const number = await aLiveTag(database.app, house.inez, hood);
    const move = { pieces: scanned(hood), to: withCorwin(), purpose: "issue" as const, set: "front-line" };
    await house.inez.must(movePiecesAct, move, "2026-03-04T09:30:00Z");
    const told = await trail(hood);
    expect(told.entries.map(({ entry, subjectKind }) => [subjectKind, entry.kind])).toEqual([
      ["piece", "PieceRegistered"],
      ["tag", "TagReserved"],
      ["tag", "TagPrinted"],
      ["tag", "TagAttached"],
      ["piece", "PieceMoved"],
    ]);
    expect(told.entries.at(-1)).toMatchObject({
      version: 2,
      at: "2026-03-04T09:30:00.000Z",
      command: "movePieces",
      device: "bench-1",
      by: { kind: "account", id: house.inez.by },
    });
    expect(told.entries[3]?.tagNumber).toBe(number);
    const positions = told.entries.map(({ position }) => position);
    expect(positions).toEqual([...positions].sort((a, b) => a - b));
    expect(told.names[house.corwin]?.name).toBe("Corwin Bask");
    expect(told.piece).toMatchObject({
      holder: { name: "Corwin Bask" },
      registeredWith: { name: "Rack B2" },
      tags: [{ number, state: "attached" }],
    });
  });

  test("shows the time that nobody wrote down as a gap between the last support and the finding", async () => {
    const hood = await register("hood", {}, "2026-04-01T08:00:00Z");
    const issue = { pieces: scanned(hood), to: withCorwin(), purpose: "issue" as const };
    await house.inez.must(movePiecesAct, issue, "2026-04-02T08:00:00Z");
    await house.inez.must(
      recordFoundAct,
      { pieces: scanned(hood), holder: atBench() },
      "2026-04-20T08:00:00Z",
    );
    const { stays } = await trail(hood);
    expect(
      stays.map(({ holder, from, to, isGap }) => [holder.name, from.slice(0, 10), to?.slice(0, 10), isGap]),
    ).toEqual([
      ["Rack B2", "2026-04-01", "2026-04-02", false],
      ["Corwin Bask", "2026-04-02", "2026-04-02", false],
      ["whereabouts unknown", "2026-04-02", "2026-04-20", true],
      ["Bench 1", "2026-04-20", undefined, false],
    ]);
  });

  test("links a correction and what it corrects both ways, and keeps both with the reason", async () => {
    const hood = await register("hood");
    await house.inez.must(movePiecesAct, { pieces: scanned(hood), to: atBench(), purpose: "transfer" });
    await house.inez.must(correctMoveAct, {
      piece: hood,
      version: 2,
      to: withCorwin(),
      note: "it was Corwin",
    });
    const { entries, stays } = await trail(hood);
    expect(entries.map(({ version, corrects, correctedBy }) => [version, corrects, correctedBy])).toEqual([
      [1, undefined, undefined],
      [2, undefined, 3],
      [3, 2, undefined],
    ]);
    expect(entries[2]?.texts).toEqual({ note: "it was Corwin" });
    expect(stays.at(-1)?.holder.name).toBe("Corwin Bask");
  });

  test("shows a withdrawn text as withdrawn, and the entry still as unchanged", async () => {
    const hood = await register("hood");
    await house.inez.must(placeHoldAct, { pieces: [hood], hold: "finding", note: "torn at the seam" });
    await database.app.updateTable("entry_text").set({ body: null }).where("subject", "=", hood).execute();
    const { entries, checked } = await trail(hood);
    expect(entries[1]?.texts).toEqual({ note: null });
    expect(checked).toEqual({ entries: 2, at: "2026-11-24T10:15:00.000Z", changed: [] });
  });

  test("names the act whose entry somebody changed behind the program's back, hash and all", async () => {
    const hood = await register("hood");
    await house.inez.must(movePiecesAct, { pieces: scanned(hood), to: atBench(), purpose: "transfer" });
    const position = await head();
    await sql`update entry set bytes = convert_to(replace(convert_from(bytes, 'UTF8'), '"transfer"', '"storage"'), 'UTF8')
      where subject = ${hood} and version = 2`.execute(database.owner);
    expect((await trail(hood)).checked.changed).toEqual([{ position, code: "act-changed" }]);
  });

  test("names the entry that was put to another place than its bytes say", async () => {
    const hood = await register("hood");
    await sql`update entry set bytes = convert_to(replace(convert_from(bytes, 'UTF8'), '"version":1', '"version":7'), 'UTF8')
      where subject = ${hood}`.execute(database.owner);
    expect((await trail(hood)).checked.changed[0]).toEqual({
      subject: hood,
      version: 1,
      code: "entry-misplaced",
    });
  });

  test("of a piece that nobody registered, or of a position that was not reached, is not there", async () => {
    const hood = await register("hood");
    expect(await readTrail(database.app, house.rack as string as PieceId, NOW)).toEqual({ missing: "piece" });
    expect(await readTrail(database.app, hood, NOW, 1_000_000)).toEqual({ missing: "position" });
  });
});

describe("the trail of a shell", () => {
  test("tells which layers went in and out, from the entries of the layers, and not that they went along", async () => {
    const shell = await register("coat-shell");
    const liner = await register("coat-liner", { linerCode: "LK-2" });
    await house.inez.must(installLayerAct, { shell, layer: liner, evidence: "scanned" });
    await house.inez.must(movePiecesAct, { pieces: scanned(shell), to: atBench(), purpose: "transfer" });
    await house.inez.must(separateLayersAct, { pieces: scanned(liner) });
    const told = await trail(shell);
    expect(told.entries.map(({ entry, ofLayer }) => [entry.kind, ofLayer?.id])).toEqual([
      ["PieceRegistered", undefined],
      ["LayerInstalled", liner],
      ["PieceMoved", undefined],
      ["LayerSeparated", liner],
    ]);
    expect(told.fittings).toMatchObject([
      { role: "held", piece: { id: liner, name: "Coat liner" }, verdict: "match" },
    ]);
    expect((await trail(liner)).fittings).toMatchObject([{ role: "was in", piece: { id: shell } }]);
  });

  test("keeps an installation that was taken back, with the correction beside it, and no fitting", async () => {
    const shell = await register("coat-shell");
    const liner = await register("coat-liner", { linerCode: "LK-2" });
    await house.inez.must(installLayerAct, { shell, layer: liner, evidence: "scanned" });
    await house.inez.must(correctMoveAct, { piece: liner, version: 2, void: true, note: "another coat" });
    const told = await trail(shell);
    expect(told.entries.map(({ entry }) => entry.kind)).toEqual([
      "PieceRegistered",
      "LayerInstalled",
      "EntryCorrected",
    ]);
    expect([told.entries[1]?.correctedBy, told.fittings]).toEqual([3, []]);
  });
});

describe("a trail as known at a position", () => {
  test("folds nothing that was recorded after it: a late record and a correction are not there yet", async () => {
    const hood = await register("hood", {}, "2026-05-01T08:00:00Z");
    await house.inez.must(
      movePiecesAct,
      { pieces: scanned(hood), to: atBench(), purpose: "transfer" },
      "2026-05-10T08:00:00Z",
    );
    const then = await head();
    await house.inez.must(correctMoveAct, { piece: hood, version: 2, to: withCorwin(), note: "wrong card" });
    const before = await trail(hood, then);
    expect(before.knownAt?.position).toBe(then);
    expect([before.piece.holder.name, before.entries.length, before.entries[1]?.correctedBy]).toEqual([
      "Bench 1",
      2,
      undefined,
    ]);
    expect((await trail(hood)).piece.holder.name).toBe("Corwin Bask");
  });

  test("knows no tag, and not the piece itself, before they were recorded", async () => {
    const start = await head();
    const hood = await register("hood");
    const registered = await head();
    await aLiveTag(database.app, house.inez, hood);
    expect((await trail(hood, registered)).piece.tags).toEqual([]);
    expect((await trail(hood, registered)).entries).toHaveLength(1);
    expect(await readTrail(database.app, hood, NOW, start)).toEqual({ missing: "piece" });
  });

  test("says the same as now when nothing came after", async () => {
    const hood = await register("hood");
    await house.inez
      .must(movePiecesAct, { pieces: scanned(hood), to: atRack(), purpose: "storage" })
      .catch(() => {});
    const { knownAt: _, ...then } = await trail(hood, await head());
    expect(then).toEqual(await trail(hood));
  });
});
