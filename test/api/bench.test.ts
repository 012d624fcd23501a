import { beforeAll, describe, expect, test } from "vitest";
import {
  installLayerAct,
  movePiecesAct,
  recordFoundAct,
  separateLayersAct,
} from "../../server/cases/bench-acts.ts";
import { correctMoveAct, takeBackAct } from "../../server/cases/correct-acts.ts";
import {
  describeKindAct,
  listMembersAct,
  namePlaceAct,
  registerPiecesAct,
} from "../../server/cases/register-acts.ts";
import { describeModelsAct } from "../../server/cases/rule-acts.ts";
import type { MemberId, ModelId, PieceId, PlaceId, Uuid } from "../../server/domain/ids.ts";
import type { MakersLabel } from "../../server/domain/pieces/label.ts";
import { STANDARD_KINDS } from "../../server/domain/register/standard-kinds.ts";
import { actor, aDraft, anId } from "../kit/acting.ts";
import { useTestDatabase } from "../kit/test-database.ts";

const database = useTestDatabase();
const inez = actor(() => database.app);
const rack = anId<PlaceId>();
const bench = anId<PlaceId>();
const corwin = anId<MemberId>();
const scanned = (...pieces: PieceId[]) => pieces.map((piece) => ({ piece, evidence: "scanned" as const }));
const atPlace = (id: PlaceId) => ({ kind: "place" as const, id });
const withMember = (id: MemberId) => ({ kind: "member" as const, id });

async function register(kind: string, label: MakersLabel = {}): Promise<PieceId> {
  const draft = aDraft(kind, rack, label);
  await inez.must(registerPiecesAct, { pieces: [draft], evidence: "typed" });
  return draft.id;
}
async function madeUpCoat(): Promise<{ shell: PieceId; liner: PieceId; drd: PieceId }> {
  const shell = await register("coat-shell");
  const liner = await register("coat-liner", { linerCode: "LK-2" });
  const drd = await register("drd", { linerCode: "D-1" });
  for (const layer of [liner, drd]) await inez.must(installLayerAct, { shell, layer, evidence: "scanned" });
  return { shell, liner, drd };
}
const holderOf = async (piece: PieceId) =>
  (await database.app.selectFrom("piece").select(["holder"]).where("id", "=", piece).executeTakeFirst())
    ?.holder;

beforeAll(async () => {
  for (const kind of STANDARD_KINDS) await inez.must(describeKindAct, { id: anId<Uuid>(), ...kind });
  await inez.must(namePlaceAct, { id: rack, name: "Rack B2", what: "rack", carries: "shared" });
  await inez.must(namePlaceAct, { id: bench, name: "Bench 1", what: "bench", carries: "shared" });
  await inez.must(listMembersAct, { members: [{ id: corwin, number: "214", name: "Corwin Bask" }] });
  const takes = [
    { layerKind: "coat-liner", takesLinerCode: "LK-2" },
    { layerKind: "drd", takesLinerCode: "D-1" },
  ];
  const model = { id: anId<ModelId>(), maker: "Tarnholt", name: "K7", kind: "coat-shell", takes };
  const source = { what: "maker's letter" as const };
  await inez.must(describeModelsAct, { models: [{ ...model, layers: ["coat-liner", "drd"], source }] });
});

describe("a liner that does not belong in its shell", () => {
  test("is refused with every reason at once, and nothing is put on hold", async () => {
    const shell = await register("coat-shell");
    const wrong = await register("coat-liner", { linerCode: "LK-3", size: "44 32 R" });
    const outcome = await inez.act(installLayerAct, { shell, layer: wrong, evidence: "scanned" });
    const refusal = "refusals" in outcome ? outcome.refusals[0] : undefined;
    expect(refusal?.code === "labels" && [refusal.verdict, refusal.reasons.map(({ code }) => code)]).toEqual([
      "differs",
      ["takes-another", "size-differs"],
    ]);
    const holds = await database.app
      .selectFrom("hold")
      .selectAll()
      .where("piece", "in", [shell, wrong])
      .execute();
    expect(holds).toEqual([]);
  });

  test("goes on hold with its shell when the two came in fitted, until they are separated", async () => {
    const shell = await register("coat-shell");
    const wrong = await register("coat-liner", { linerCode: "LK-3" });
    await inez.must(recordFoundAct, {
      pieces: scanned(shell, wrong),
      holder: atPlace(bench),
      fitted: [{ shell, layer: wrong }],
    });
    const held = () => database.app.selectFrom("piece").select("id").where("held", "=", true).execute();
    expect((await held()).map(({ id }) => id).sort()).toEqual([shell, wrong].sort());
    await inez.must(separateLayersAct, { pieces: scanned(wrong) });
    expect(await held()).toEqual([]);
    const worn = await database.app.selectFrom("fitting").selectAll().where("layer", "=", wrong).execute();
    expect(worn.map(({ verdict, to_at }) => [verdict, to_at !== null])).toEqual([["differs", true]]);
  });
});

describe("an issue", () => {
  test("takes the layers along with the scanned shell, and the member has them", async () => {
    const { shell, liner, drd } = await madeUpCoat();
    await inez.must(movePiecesAct, { pieces: scanned(shell), to: withMember(corwin), purpose: "issue" });
    expect(await Promise.all([shell, liner, drd].map(holderOf))).toEqual([corwin, corwin, corwin]);
  });

  test("is refused whole for a coat without its DRD and a soiled hood, and nothing is half issued", async () => {
    const { shell, drd } = await madeUpCoat();
    const hood = await register("hood");
    await inez.must(separateLayersAct, { pieces: scanned(drd) });
    await inez.must(movePiecesAct, {
      pieces: scanned(hood),
      to: atPlace(bench),
      purpose: "turn in",
      soiled: true,
    });
    const issue = { pieces: scanned(shell, hood), to: withMember(corwin), purpose: "issue" as const };
    expect((await inez.refusalsOf(movePiecesAct, issue)).sort()).toEqual(["layer-missing", "soiled"]);
    expect(await holderOf(shell)).toBe(rack);
  });
});

describe("the record of where a piece is", () => {
  test("is never refused because of a hold: a captain takes the coat at night", async () => {
    const { shell, liner } = await madeUpCoat();
    await inez.must(movePiecesAct, {
      pieces: scanned(shell),
      to: atPlace(bench),
      purpose: "turn in",
      soiled: true,
    });
    await inez.must(recordFoundAct, { pieces: scanned(shell), holder: withMember(corwin), takenBy: corwin });
    expect(await holderOf(liner)).toBe(corwin);
  });

  test("takes a late move where it fits, and refuses one that the later record contradicts", async () => {
    const hood = await register("hood");
    const move = (to: PlaceId, at: string) =>
      inez.act(movePiecesAct, { pieces: scanned(hood), to: atPlace(to), purpose: "transfer" }, at);
    await move(bench, "2026-06-10T12:00:00Z");
    await move(rack, "2026-06-12T12:00:00Z");
    const between = await inez.act(
      movePiecesAct,
      { pieces: scanned(hood), to: withMember(corwin), purpose: "hand over" },
      "2026-06-11T12:00:00Z",
    );
    expect("refusals" in between && between.refusals[0]?.code).toBe("does-not-fit-the-record");
    const after = await move(bench, "2026-06-13T12:00:00Z");
    expect("written" in after).toBe(true);
  });

  test("a late move that a later one stands against is written whole as there and back", async () => {
    const { shell, liner } = await madeUpCoat();
    const move = (to: PlaceId, at: string, thereAndBack?: true) =>
      inez.act(
        movePiecesAct,
        {
          ...{ pieces: scanned(shell), to: atPlace(to), purpose: "transfer" as const },
          ...(thereAndBack ? { thereAndBack } : {}),
        },
        at,
      );
    await move(bench, "2026-06-20T12:00:00Z");
    const alone = await move(bench, "2026-06-19T12:00:00Z");
    const offers = ["there and back", "found here", "correction"];
    expect("refusals" in alone && alone.refusals).toEqual(
      Array.from({ length: 3 }, () => expect.objectContaining({ code: "does-not-fit-the-record", offers })),
    );
    expect("written" in (await move(bench, "2026-06-19T12:00:00Z", true))).toBe(true);
    const stays = await database.app
      .selectFrom("stay")
      .select(["holder", "from_at", "evidence"])
      .where("piece", "=", liner)
      .where("from_at", ">=", new Date("2026-06-01T00:00:00Z"))
      .orderBy("n")
      .execute();
    expect(stays.map(({ holder, from_at, evidence }) => [holder, from_at.toISOString(), evidence])).toEqual([
      [bench, "2026-06-19T12:00:00.000Z", "with its set"],
      [rack, "2026-06-20T11:59:59.999Z", "presumed"],
      [bench, "2026-06-20T12:00:00.000Z", "with its set"],
    ]);
  });

  test("a correction leaves both entries, and the piece is where the correction says", async () => {
    const hood = await register("hood");
    await inez.must(movePiecesAct, { pieces: scanned(hood), to: atPlace(bench), purpose: "transfer" });
    await inez.must(correctMoveAct, {
      piece: hood,
      version: 2,
      to: withMember(corwin),
      note: "It went out.",
    });
    expect(await holderOf(hood)).toBe(corwin);
    const kinds = await database.app
      .selectFrom("entry")
      .select("kind")
      .where("subject", "=", hood)
      .orderBy("version")
      .execute();
    expect(kinds.map(({ kind }) => kind)).toEqual(["PieceRegistered", "PieceMoved", "EntryCorrected"]);
    const twice = await inez.refusalsOf(correctMoveAct, {
      piece: hood,
      version: 2,
      void: true,
      note: "Again.",
    });
    expect(twice).toEqual(["cannot-correct"]);
  });

  test("an act taken back leaves the pieces where they were", async () => {
    const hood = await register("hood");
    const moved = await inez.act(movePiecesAct, {
      pieces: scanned(hood),
      to: atPlace(bench),
      purpose: "transfer",
    });
    const act = "written" in moved ? moved.written.id : anId<Uuid>();
    await inez.must(takeBackAct, { act, note: "Wrong card." });
    expect(await holderOf(hood)).toBe(rack);
  });
});
