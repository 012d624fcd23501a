import { beforeAll, describe, expect, test } from "vitest";
import { openAccountAct } from "../../server/cases/account-acts.ts";
import {
  assignPiecesAct,
  installLayerAct,
  movePiecesAct,
  placeHoldAct,
} from "../../server/cases/bench-acts.ts";
import type { HolderQuestion } from "../../server/cases/holder-page.ts";
import { readMemberPage } from "../../server/cases/member-page.ts";
import { listMembersAct, registerPiecesAct } from "../../server/cases/register-acts.ts";
import { setSettingsAct } from "../../server/cases/rule-acts.ts";
import type { Viewer } from "../../server/cases/viewer.ts";
import type { AccountId, MemberId, PieceId, PlaceId } from "../../server/domain/ids.ts";
import type { MemberPage } from "../../server/domain/page-views.ts";
import type { MakersLabel } from "../../server/domain/pieces/label.ts";
import type { LocalDate } from "../../server/domain/time.ts";
import { aDraft, anId } from "../kit/acting.ts";
import { aViewer } from "../kit/scanning.ts";
import { type Department, openDepartment, scanned } from "../kit/small-department.ts";
import { useTestDatabase } from "../kit/test-database.ts";

const database = useTestDatabase();
let house: Department;

beforeAll(async () => {
  house = await openDepartment(() => database.app);
  await house.inez.must(setSettingsAct, { settings: { "time zone": "America/Chicago" } });
});

async function register(
  place: PlaceId,
  at?: string,
  kind = "hood",
  label: MakersLabel = {},
): Promise<PieceId> {
  const draft = aDraft(kind, place, label);
  await house.inez.must(registerPiecesAct, { pieces: [draft], evidence: "typed" }, at);
  return draft.id;
}
async function move(piece: PieceId, to: PlaceId, at: string): Promise<void> {
  const command = {
    pieces: scanned(piece),
    to: { kind: "place" as const, id: to },
    purpose: "transfer" as const,
  };
  await house.inez.must(movePiecesAct, command, at);
}
async function memberPage(
  id: MemberId,
  viewer: Viewer = aViewer(),
  asked: Partial<HolderQuestion> = {},
): Promise<MemberPage> {
  const page = await readMemberPage(
    database.app,
    id,
    { limit: 100, ...asked },
    viewer,
    Date.parse("2026-11-24T10:15:00Z"),
  );
  if ("missing" in page) throw new Error(`There is no ${page.missing}.`);
  return page;
}
const day = (text: string) => text as LocalDate;

describe("a member's page", () => {
  async function aMember(number: string): Promise<MemberId> {
    const id = anId<MemberId>();
    await house.inez.must(listMembersAct, {
      members: [{ id, number, name: `Member of the page ${number}` }],
    });
    return id;
  }
  async function issue(member: MemberId, ...pieces: PieceId[]): Promise<void> {
    const to = { kind: "member" as const, id: member };
    await house.inez.must(movePiecesAct, {
      pieces: scanned(...pieces),
      to,
      purpose: "issue",
      set: "front-line",
    });
  }

  test("shows what the member has, and the set with its garment, complete, and what the outfit lacks", async () => {
    const member = await aMember("501");
    const shell = await register(house.rack, undefined, "coat-shell");
    const liner = await register(house.rack, undefined, "coat-liner", { linerCode: "LK-2" });
    await house.inez.must(installLayerAct, { shell, layer: liner, evidence: "scanned" });
    const hood = await register(house.rack);
    await issue(member, shell, hood);
    const page = await memberPage(member);
    expect(page.pieces.map(({ id }) => id)).toEqual([shell, liner, hood].sort());
    const [set] = page.sets;
    expect([set?.set, set?.pieces.length, set?.outfitLacks]).toEqual([
      "front-line",
      3,
      ["pants-shell", "helmet", "glove-pair", "boot-pair"],
    ]);
    expect(set?.garments.find(({ piece }) => piece === shell)).toMatchObject({
      layers: [liner],
      missing: [],
    });
  });

  test("says which layer a garment of the set lacks, also where its liner hangs elsewhere", async () => {
    const member = await aMember("502");
    const shell = await register(house.rack, undefined, "coat-shell");
    await house.inez.must(assignPiecesAct, { pieces: [shell], to: { member, set: "second" } });
    const page = await memberPage(member);
    expect(page.pieces).toEqual([]);
    expect(page.sets[0]?.garments[0]?.missing).toEqual(["coat-liner"]);
  });

  test("shows the holds that stand on what the member has", async () => {
    const member = await aMember("503");
    const hood = await register(house.rack);
    await issue(member, hood);
    await house.inez.must(placeHoldAct, { pieces: [hood], hold: "makers notice" });
    expect((await memberPage(member)).holds).toMatchObject([
      { piece: { id: hood }, hold: { kind: "makers notice" } },
    ]);
  });

  test("shows what the member had on a day, after it was turned in", async () => {
    const member = await aMember("504");
    const hood = await register(house.rack, "2026-09-01T12:00:00Z");
    const to = { kind: "member" as const, id: member };
    await house.inez.must(
      movePiecesAct,
      { pieces: scanned(hood), to, purpose: "issue" },
      "2026-09-02T12:00:00Z",
    );
    await move(hood, house.bench, "2026-09-04T12:00:00Z");
    expect((await memberPage(member)).pieces).toEqual([]);
    const page = await memberPage(member, aViewer(), { on: day("2026-09-03") });
    expect(page.pieces).toMatchObject([
      { id: hood, from: "2026-09-02T12:00:00.000Z", to: "2026-09-04T12:00:00.000Z" },
    ]);
  });

  test("tells the member who looked, each look of another once, and not the member's own", async () => {
    const member = await aMember("505");
    const account = anId<AccountId>();
    await house.inez.must(openAccountAct, { account, role: "program manager", name: "Odile Verrill" });
    const odile = aViewer({ account, role: "program manager" });
    const own = aViewer({ role: "member", member });
    await memberPage(member, odile);
    await memberPage(member, own);
    await memberPage(member, odile);
    expect((await memberPage(member, own)).viewings).toEqual([
      {
        at: "2026-11-24T10:15:00.000Z",
        by: { kind: "account", id: account, name: "Odile Verrill", detail: "program manager" },
      },
      {
        at: "2026-11-24T10:15:00.000Z",
        by: { kind: "account", id: account, name: "Odile Verrill", detail: "program manager" },
      },
    ]);
  });

  test("of a member that is not listed is not there, and no look is written", async () => {
    const nobody = anId<MemberId>();
    expect(await readMemberPage(database.app, nobody, { limit: 5 }, aViewer(), 0)).toEqual({
      missing: "subject",
    });
    expect(
      await database.app.selectFrom("viewing").selectAll().where("member", "=", nobody).execute(),
    ).toEqual([]);
  });
});
