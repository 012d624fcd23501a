import { beforeAll, describe, expect, test } from "vitest";
import { giveBadgeAct, openAccountAct } from "../../server/cases/account-acts.ts";
import { movePiecesAct } from "../../server/cases/bench-acts.ts";
import { listMembersAct, registerPiecesAct } from "../../server/cases/register-acts.ts";
import { setUpAct } from "../../server/cases/set-up.ts";
import { drawCardsAct } from "../../server/cases/tag-acts.ts";
import type { AccountId, MemberId, PieceId } from "../../server/domain/ids.ts";
import { foldTagText, TAG_ALPHABET, type TagNumber } from "../../server/domain/tags/tag-number.ts";
import { aDraft, anId } from "../kit/acting.ts";
import { aLiveTag, aViewer, scan, scanFor } from "../kit/scanning.ts";
import { type Department, openDepartment, scanned } from "../kit/small-department.ts";
import { useTestDatabase } from "../kit/test-database.ts";

const database = useTestDatabase();
let house: Department;
const db = () => database.app;

beforeAll(async () => {
  house = await openDepartment(db);
  await house.inez.must(setUpAct, { timeZone: "America/Chicago" });
});

async function aHood(): Promise<PieceId> {
  const draft = aDraft("hood", house.rack, { size: "one size" });
  await house.inez.must(registerPiecesAct, { pieces: [draft], evidence: "typed" });
  return draft.id;
}

/** Another symbol in one place, as a smudge makes it. */
function smudged(number: string, at: number): string {
  const other = TAG_ALPHABET[(TAG_ALPHABET.indexOf(number[at] ?? "0") + 1) % TAG_ALPHABET.length];
  return number.slice(0, at) + other + number.slice(at + 1);
}

describe("a card", () => {
  test("of a place names the place and what it carries", async () => {
    await house.inez.must(drawCardsAct, { places: [house.bench] });
    const { number } = await db()
      .selectFrom("place")
      .select("number")
      .where("id", "=", house.bench)
      .executeTakeFirstOrThrow();
    const answer = await scanFor(db(), "place", number ?? "");
    expect(answer.place).toEqual({
      ...{ id: house.bench, name: "Bench 1", what: "bench", carries: "shared", closed: false, number },
    });
  });

  test("of a member names the member with station and shift, and a removed name is simply not there", async () => {
    const member = anId<MemberId>();
    const mirela = { id: member, number: "377", name: "Mirela Ferro", shift: "B" };
    await house.inez.must(listMembersAct, { members: [mirela] });
    await house.inez.must(drawCardsAct, { members: [member] });
    const { card } = await db()
      .selectFrom("member")
      .select("card")
      .where("id", "=", member)
      .executeTakeFirstOrThrow();
    expect((await scanFor(db(), "member", card ?? "")).member).toEqual(mirela);
    await db().deleteFrom("person").where("id", "=", member).execute();
    expect((await scanFor(db(), "member", card ?? "")).member).toEqual({
      id: member,
      number: "377",
      shift: "B",
    });
  });

  test("of a person is a badge and names the account with its role", async () => {
    const account = anId<AccountId>();
    await house.inez.must(openAccountAct, { account, role: "inspector", name: "Tobin Achterberg" });
    await house.inez.must(giveBadgeAct, { account });
    const { badge } = await db()
      .selectFrom("account")
      .select("badge")
      .where("id", "=", account)
      .executeTakeFirstOrThrow();
    expect((await scanFor(db(), "badge", badge ?? "")).account).toEqual({
      ...{ id: account, name: "Tobin Achterberg", role: "inspector", closed: false },
    });
  });

  test("of an action says which", async () => {
    const row = await db()
      .selectFrom("setting")
      .select("value")
      .where("name", "=", "action cards")
      .executeTakeFirstOrThrow();
    const cards = row.value as Record<string, string>;
    expect((await scanFor(db(), "action", cards["turn in soiled"] ?? "")).action).toBe("turn in soiled");
  });
});

describe("a member who scans", () => {
  async function issuedTo(member: MemberId): Promise<TagNumber> {
    const piece = await aHood();
    const number = await aLiveTag(db(), house.inez, piece);
    await house.inez.must(movePiecesAct, {
      pieces: scanned(piece),
      to: { kind: "member", id: member },
      purpose: "issue",
      set: "front-line",
    });
    return number;
  }

  test("sees own gear and is not shown another's", async () => {
    const number = await issuedTo(house.corwin);
    const own = aViewer({ role: "member", member: house.corwin });
    expect((await scanFor(db(), "piece", number, own)).piece.holder.name).toBe("Corwin Bask");
    const other = aViewer({ role: "member", member: anId<MemberId>() });
    expect(await scan(db(), number, other)).toEqual({ kind: "not-yours", text: number });
  });

  test("can hand in another's piece, and is told nothing of people", async () => {
    const number = await issuedTo(house.corwin);
    const other = aViewer({ role: "member", member: anId<MemberId>() });
    const answer = await scanFor(db(), "piece", number, other, { mode: "turn in soiled" });
    expect(answer.piece.holder).toEqual({ kind: "member", name: "a member" });
    expect(JSON.stringify(answer)).not.toMatch(/Corwin|Bask|214/);
  });

  test("is given numbers and no pieces as suggestions for a misread", async () => {
    const number = await issuedTo(house.corwin);
    const other = aViewer({ role: "member", member: anId<MemberId>() });
    const answer = await scanFor(db(), "misread", smudged(foldTagText(number), 2), other);
    expect(answer.suggestions).toEqual([{ number, change: "one symbol", names: "tag" }]);
  });
});
