import { beforeAll, describe, expect, test } from "vitest";
import {
  compareByEyeAct,
  installLayerAct,
  movePiecesAct,
  placeHoldAct,
  recordFoundAct,
  retirePiecesAct,
  separateLayersAct,
} from "../../server/cases/bench-acts.ts";
import { viewPiece } from "../../server/cases/look-up.ts";
import { describePieceAct, namePlaceAct, registerPiecesAct } from "../../server/cases/register-acts.ts";
import { recordAcceptanceAct, setSettingsAct } from "../../server/cases/rule-acts.ts";
import type { PieceId, PlaceId, Uuid } from "../../server/domain/ids.ts";
import type { PieceView } from "../../server/domain/piece-view.ts";
import type { MakersLabel } from "../../server/domain/pieces/label.ts";
import type { LocalDate } from "../../server/domain/time.ts";
import { aDraft, anId } from "../kit/acting.ts";
import { aLiveTag } from "../kit/scanning.ts";
import { type Department, openDepartment, scanned } from "../kit/small-department.ts";
import { useTestDatabase } from "../kit/test-database.ts";

const database = useTestDatabase();
let house: Department;

beforeAll(async () => {
  house = await openDepartment(() => database.app);
});

async function register(
  kind: string,
  label: MakersLabel = {},
  reading: "read" | "not yet read" = "read",
): Promise<PieceId> {
  const draft = { ...aDraft(kind, house.rack, label), reading };
  await house.inez.must(registerPiecesAct, { pieces: [draft], evidence: "typed" });
  return draft.id;
}
async function view(piece: PieceId): Promise<PieceView> {
  const shown = await viewPiece(database.app, piece);
  if (!shown) throw new Error("The piece is not on record.");
  return shown;
}
async function madeUpCoat(): Promise<{ shell: PieceId; liner: PieceId }> {
  const shell = await register("coat-shell");
  const liner = await register("coat-liner", { linerCode: "LK-2" });
  await house.inez.must(installLayerAct, { shell, layer: liner, evidence: "scanned" });
  return { shell, liner };
}
/** A coat whose liner differs, as it came in. */
async function wrongCoat(): Promise<{ shell: PieceId; liner: PieceId }> {
  const shell = await register("coat-shell");
  const liner = await register("coat-liner", { linerCode: "LK-3" });
  const found = { pieces: scanned(shell, liner), holder: { kind: "place", id: house.bench } as const };
  await house.inez.must(recordFoundAct, { ...found, fitted: [{ shell, layer: liner }] });
  return { shell, liner };
}
const codes = (shown: PieceView) =>
  shown.ready.isReady ? [] : shown.ready.reasons.map(({ code }) => code).sort();

describe("a shell", () => {
  test("shows what is fitted in it with the label check of today's record, and that it is complete", async () => {
    const { shell, liner } = await madeUpCoat();
    const number = await aLiveTag(database.app, house.inez, liner);
    const shown = await view(shell);
    expect(shown.fitted).toMatchObject([
      {
        piece: { id: liner, number, holder: { name: "Rack B2" } },
        layerKind: "coat-liner",
        check: { verdict: "match" },
      },
    ]);
    expect([shown.missing, shown.ready.isReady, shown.fittedIn]).toEqual([[], true, undefined]);
    expect(shown.names[liner]).toEqual({ kind: "piece", id: liner, name: "Coat liner", detail: number });
  });

  test("that lacks its liner says so, by the model table or by what such a shell usually has", async () => {
    const shell = await register("coat-shell");
    expect((await view(shell)).missing).toEqual([{ layerKind: "coat-liner" }]);
    const strange = await register("coat-shell", { maker: "Quillfeather", modelName: "Z1" });
    expect((await view(strange)).missing).toEqual([{ layerKind: "coat-liner" }, { layerKind: "drd" }]);
  });

  test("with a liner that differs says every reason, and both are on hold", async () => {
    const { shell, liner } = await wrongCoat();
    const shown = await view(shell);
    expect(shown.fitted[0]?.check?.reasons.map(({ code }) => code)).toEqual(["takes-another"]);
    expect(codes(shown)).toEqual(["labels-differ", "on-hold", "on-hold"]);
    expect(shown.holds).toMatchObject([{ kind: "differs", with: liner, placedBy: house.inez.by }]);
  });

  test("with a liner that the maker's recorded word accepts is accepted, and says by which word", async () => {
    const { shell, liner } = await wrongCoat();
    const word = anId<Uuid>();
    await house.inez.must(recordAcceptanceAct, {
      ...{ id: word, saidBy: "maker", saidByName: "Tarnholt", document: "letter of 3 March" },
      ...{ scope: { what: "pieces", shell, layer: liner }, saidOn: "2026-03-03" as LocalDate },
    });
    const check = (await view(shell)).fitted[0]?.check;
    expect([check?.verdict, check?.acceptedBy.map(({ id }) => id)]).toEqual(["accepted", [word]]);
  });

  test("whose labels an inspector compared by eye says by whom and on which day of the department", async () => {
    await house.inez.must(setSettingsAct, { settings: { "time zone": "America/Chicago" } });
    const shell = await register("coat-shell", {}, "not yet read");
    const liner = await register("coat-liner", { linerCode: "LK-2" }, "not yet read");
    await house.inez.must(compareByEyeAct, { shell, layer: liner }, "2026-03-10T03:30:00Z");
    const install = { shell, layer: liner, evidence: "scanned" as const };
    await house.inez.must(installLayerAct, install, "2026-03-10T03:31:00Z");
    const check = (await view(shell)).fitted[0]?.check;
    expect([check?.verdict, check?.comparedByEye]).toEqual([
      "match",
      { outer: shell, inner: liner, by: house.inez.by, on: "2026-03-09" },
    ]);
  });
});

describe("a layer", () => {
  test("shows the shell that it is in, with the same label check, and no longer once it is separated", async () => {
    const { shell, liner } = await madeUpCoat();
    const shown = await view(liner);
    expect(shown.fittedIn).toMatchObject({ piece: { id: shell }, check: { verdict: "match" } });
    await house.inez.must(separateLayersAct, { pieces: scanned(liner) });
    expect((await view(liner)).fittedIn).toBeUndefined();
  });

  test("brings what a label check with any shell on the bench needs: its recorded words", async () => {
    const [shell, liner] = [
      await register("coat-shell"),
      await register("coat-liner", { linerCode: "LK-9" }),
    ];
    const word = anId<Uuid>();
    await house.inez.must(recordAcceptanceAct, {
      ...{ id: word, saidBy: "maker", saidByName: "Tarnholt", document: "letter" },
      ...{ scope: { what: "pieces", shell, layer: liner }, saidOn: "2026-03-03" as LocalDate },
    });
    const [outer, inner] = [await view(shell), await view(liner)];
    expect(outer.forLabelCheck.takes.map(({ takesLinerCode }) => takesLinerCode)).toEqual(["LK-2"]);
    for (const { forLabelCheck } of [outer, inner])
      expect(forLabelCheck.acceptedCombinations.map(({ id }) => id)).toContain(word);
  });
});

describe("a piece", () => {
  test("on a rack in a cage shows the cage, and an issued one the member with the set", async () => {
    const [cage, rack] = [anId<PlaceId>(), anId<PlaceId>()];
    await house.inez.must(namePlaceAct, { id: cage, name: "Gear cage", what: "cage", carries: "apart" });
    const inCage = {
      id: rack,
      name: "Rack in the cage",
      what: "rack",
      carries: "shared",
      within: cage,
    } as const;
    await house.inez.must(namePlaceAct, inCage);
    const draft = aDraft("hood", rack);
    await house.inez.must(registerPiecesAct, { pieces: [draft], evidence: "typed" });
    expect((await view(draft.id)).within).toEqual({ kind: "place", id: cage, name: "Gear cage" });
    const to = { kind: "member" as const, id: house.corwin };
    await house.inez.must(movePiecesAct, {
      pieces: scanned(draft.id),
      to,
      purpose: "issue",
      set: "front-line",
    });
    const issued = await view(draft.id);
    expect(issued.assignment).toEqual({ member: issued.holder, set: "front-line" });
    expect(issued.holder).toEqual({ kind: "member", id: house.corwin, name: "Corwin Bask", detail: "214" });
  });

  test("shows its last acts, newest first, what was last done to its tag among them, with names for what they speak of", async () => {
    const hood = await register("hood");
    await aLiveTag(database.app, house.inez, hood);
    const move = (id: PlaceId) => ({
      pieces: scanned(hood),
      to: { kind: "place" as const, id },
      purpose: "transfer" as const,
    });
    await house.inez.must(movePiecesAct, move(house.bench));
    await house.inez.must(movePiecesAct, { ...move(house.rack), receivedBy: house.corwin });
    const { lastActs, names } = await view(hood);
    expect(lastActs.map(({ command }) => command)).toEqual([
      "movePieces",
      "movePieces",
      "attachTag",
      "registerPieces",
    ]);
    expect(lastActs[0]?.entries[0]?.entry).toMatchObject({ kind: "PieceMoved", from: { id: house.bench } });
    expect([names[house.bench]?.name, names[house.rack]?.name, names[house.corwin]?.name]).toEqual([
      "Bench 1",
      "Rack B2",
      "Corwin Bask",
    ]);
  });
});

describe("ready to issue", () => {
  /** What the issue of a piece is refused for, in the words of the bench's answer. */
  async function refusedFor(piece: PieceId): Promise<string[]> {
    const to = { kind: "member" as const, id: house.corwin };
    const outcome = await house.inez.act(movePiecesAct, { pieces: scanned(piece), to, purpose: "issue" });
    const names: Record<string, string> = {
      held: "on-hold",
      labels: "labels-differ",
      "label-not-read": "labels-not-read",
    };
    return "refusals" in outcome ? outcome.refusals.map(({ code }) => names[code] ?? code).sort() : [];
  }

  test.each<[string, () => Promise<PieceId>]>([
    ["a made-up coat", async () => (await madeUpCoat()).shell],
    ["a hood", () => register("hood")],
    ["a hood whose label nobody read", () => register("hood", {}, "not yet read")],
    ["a coat without its liner", () => register("coat-shell")],
    ["a coat whose liner differs", async () => (await wrongCoat()).shell],
    [
      "a coat whose liner alone is on hold",
      async () => {
        const { shell, liner } = await madeUpCoat();
        await house.inez.must(placeHoldAct, { pieces: [liner], hold: "finding" });
        return shell;
      },
    ],
    [
      "a soiled coat",
      async () => {
        const { shell } = await madeUpCoat();
        const to = { kind: "place" as const, id: house.bench };
        await house.inez.must(movePiecesAct, {
          pieces: scanned(shell),
          to,
          purpose: "turn in",
          soiled: true,
        });
        return shell;
      },
    ],
    [
      "a retired hood",
      async () => {
        const hood = await register("hood");
        await house.inez.must(retirePiecesAct, { pieces: scanned(hood), method: "cut up" });
        return hood;
      },
    ],
  ])("says of %s exactly what its issue is refused for", async (_, made) => {
    const piece = await made();
    const said = codes(await view(piece));
    expect(said).toEqual(await refusedFor(piece));
  });
});

test("what is on file of a piece is shown to those who work with it, and changes by describing it", async () => {
  const draft = aDraft("hood", house.rack);
  const file = { ...draft.file, funding: "Grant 9", purchaseOrder: "PO-1", priceCents: 124_950 };
  await house.inez.must(registerPiecesAct, { pieces: [{ ...draft, file }], evidence: "typed" });
  expect(await view(draft.id)).toMatchObject({
    funding: "Grant 9",
    purchaseOrder: "PO-1",
    priceCents: 124_950,
  });
  const changed = { purchaseOrder: null, priceCents: 99_900 };
  await house.inez.must(describePieceAct, { piece: draft.id, label: {}, file: changed });
  const after = await view(draft.id);
  expect([after.funding, after.purchaseOrder, after.priceCents]).toEqual(["Grant 9", undefined, 99_900]);
});
