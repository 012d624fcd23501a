import { beforeAll, describe, expect, test } from "vitest";
import { openAccountAct } from "../../server/cases/account-acts.ts";
import { bindForeignCodeAct, registerPiecesAct } from "../../server/cases/register-acts.ts";
import { setUpAct } from "../../server/cases/set-up.ts";
import { attachTagAct, changeTagAct } from "../../server/cases/tag-acts.ts";
import type { AccountId, PieceId } from "../../server/domain/ids.ts";
import { TAG_ALPHABET, type TagNumber, withCheckSymbols } from "../../server/domain/tags/tag-number.ts";
import { aDraft, anId } from "../kit/acting.ts";
import { aLiveTag, aPrintedTag, aViewer, scan, scanFor } from "../kit/scanning.ts";
import { type Department, openDepartment } from "../kit/small-department.ts";
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

/** A number whose check symbols hold and that no register drew. */
const STRANGER = withCheckSymbols("C7K3F92CXT") as TagNumber;

/** Another symbol in one place, as a smudge makes it. */
function smudged(number: string, at: number): string {
  const other = TAG_ALPHABET[(TAG_ALPHABET.indexOf(number[at] ?? "0") + 1) % TAG_ALPHABET.length];
  return number.slice(0, at) + other + number.slice(at + 1);
}

describe("a scanned number", () => {
  test("of a live tag opens the piece, with its tag and where it is", async () => {
    const piece = await aHood();
    const number = await aLiveTag(db(), house.inez, piece);
    const answer = await scanFor(db(), "piece", number);
    expect(answer.piece).toMatchObject({
      id: piece,
      kind: { code: "hood", name: "Hood" },
      holder: { kind: "place", id: house.rack, name: "Rack B2" },
      number,
      ready: { isReady: true },
    });
    expect(answer.tag).toMatchObject({ number, state: "attached", position: "main" });
  });

  test("is read the same with blanks, in small letters, with O for 0, and from our own link", async () => {
    const piece = await aHood();
    const number = await aLiveTag(db(), house.inez, piece);
    const spoken = `${number.slice(0, 4)} ${number.slice(4, 8)}-${number.slice(8)}`.toLowerCase();
    for (const text of [spoken, number.replaceAll("0", "O"), `https://gear.harrow.example/${number}`]) {
      expect((await scanFor(db(), "piece", text)).piece.id).toBe(piece);
    }
  });

  test("of a superseded tag still opens the piece, and says by which tag and when it was replaced", async () => {
    const piece = await aHood();
    const old = await aLiveTag(db(), house.inez, piece);
    const fresh = await aPrintedTag(db(), house.inez, piece);
    const at = "2026-03-02T11:30:00.000Z";
    const replace = { piece, number: fresh, position: "main", proof: "scanned" as const, replaces: old };
    await house.inez.must(attachTagAct, replace, at);
    const answer = await scanFor(db(), "piece", old);
    expect(answer.tag).toMatchObject({ state: "superseded", supersededBy: fresh, endedAt: at });
    expect(answer.piece).toMatchObject({ id: piece, number: fresh });
  });

  test("of a lost tag still opens the piece and says that the tag is lost", async () => {
    const piece = await aHood();
    const number = await aLiveTag(db(), house.inez, piece);
    await house.inez.must(changeTagAct, { number, to: "lost" });
    const answer = await scanFor(db(), "piece", number);
    expect([answer.piece.id, answer.piece.number, answer.tag.state]).toEqual([piece, undefined, "lost"]);
  });

  test("of a printed tag that is on nothing yet says so, and for which piece it was printed", async () => {
    const piece = await aHood();
    const number = await aPrintedTag(db(), house.inez, piece);
    expect(await scanFor(db(), "unattached-tag", number)).toMatchObject({
      number,
      state: "printed",
      meantFor: { id: piece, title: "Hood, one size", where: { name: "Rack B2" } },
    });
  });

  test("of a void tag says why it is void, and since when", async () => {
    const number = await aPrintedTag(db(), house.inez);
    const at = "2026-03-02T12:00:00.000Z";
    await house.inez.must(changeTagAct, { number, to: "void", reason: "smeared print" }, at);
    expect(await scanFor(db(), "unattached-tag", number)).toMatchObject({
      state: "void",
      reason: "smeared print",
      since: at,
    });
  });

  test("that the register does not know is told apart from a misread: its check symbols hold", async () => {
    expect(await scanFor(db(), "unknown-number", STRANGER)).toMatchObject({ number: STRANGER });
    const linked = await scanFor(db(), "unknown-number", `https://gear.elsewhere.example/${STRANGER}`);
    expect(linked.host).toBe("gear.elsewhere.example");
  });

  test("with one wrong symbol is a misread, and the piece that was perhaps meant is suggested and not opened", async () => {
    const piece = await aHood();
    const number = await aLiveTag(db(), house.inez, piece);
    const answer = await scanFor(db(), "misread", smudged(number, 6));
    expect(answer.suggestions).toEqual([
      {
        number,
        change: "one symbol",
        piece: {
          id: piece,
          title: "Hood, one size",
          where: { kind: "place", id: house.rack, name: "Rack B2" },
        },
      },
    ]);
  });

  test("with two unreadable symbols, typed, is a misread with the one number that the register knows", async () => {
    const number = await aLiveTag(db(), house.inez, await aHood());
    const typed = `${number.slice(0, 5)}??${number.slice(7)}`;
    const answer = await scanFor(db(), "misread", typed, aViewer(), { via: "typed" });
    expect(answer.suggestions.map((each) => [each.number, each.change])).toEqual([
      [number, "unreadable symbols"],
    ]);
  });

  test("with a wrong symbol that mends to a number of nobody suggests nothing", async () => {
    expect((await scanFor(db(), "misread", smudged(STRANGER, 3))).suggestions).toEqual([]);
  });
});

describe("a foreign code", () => {
  const GS1 = "]d20109501101020917215T0004711";

  test("that is bound opens the piece, whatever the reader puts before it", async () => {
    const piece = await aHood();
    await house.inez.must(bindForeignCodeAct, { piece, code: "TARN-000481" });
    expect(await scanFor(db(), "foreign", "TARN-000481")).toMatchObject({
      format: "plain",
      piece: { id: piece },
    });
    expect((await scanFor(db(), "foreign", "]C0TARN-000481")).piece?.foreignCodes).toEqual(["TARN-000481"]);
  });

  test("that is not bound is shown as what it is built as, and opens nothing", async () => {
    const answer = await scanFor(db(), "foreign", GS1);
    expect([answer.format, answer.piece]).toEqual(["GS1 element string", undefined]);
    expect((await scanFor(db(), "foreign", "https://maker.example/p/77")).format).toBe("link");
  });

  test("of twelve symbols that was bound opens its piece and is never called a misread", async () => {
    const piece = await aHood();
    const code = smudged(STRANGER, 8);
    await house.inez.must(bindForeignCodeAct, { piece, code });
    expect((await scanFor(db(), "foreign", code)).piece?.id).toBe(piece);
  });

  test("of twelve symbols whose check symbols happen to hold opens the piece that it is bound to", async () => {
    const piece = await aHood();
    const code = withCheckSymbols("H00000000H") as TagNumber;
    await house.inez.must(bindForeignCodeAct, { piece, code });
    expect((await scanFor(db(), "foreign", code)).piece?.id).toBe(piece);
  });
});

describe("every scan", () => {
  test("is kept with who, where, how, what for, and what it named", async () => {
    const piece = await aHood();
    const number = await aLiveTag(db(), house.inez, piece);
    const viewer = aViewer();
    await scan(db(), number, viewer, { via: "camera", mode: "issue", device: "tablet-2" });
    await scan(db(), "  ", viewer);
    const kept = await db()
      .selectFrom("scan")
      .selectAll()
      .where("by", "=", viewer.account)
      .orderBy("id")
      .execute();
    expect(
      kept.map(({ via, mode, device, text, names, subject }) => [via, mode, device, text, names, subject]),
    ).toEqual([
      ["camera", "issue", "tablet-2", number, "piece", piece],
      ["wedge", "look up", "bench-1", "  ", "nothing", null],
    ]);
  });

  test("of 400 symbols and more is answered and kept cut", async () => {
    const viewer = aViewer();
    expect((await scan(db(), "9".repeat(5000), viewer)).kind).toBe("foreign");
    const kept = await db()
      .selectFrom("scan")
      .select("text")
      .where("by", "=", viewer.account)
      .executeTakeFirstOrThrow();
    expect(kept.text).toHaveLength(400);
  });

  test("that comes while others are being written is kept too, each once", async () => {
    const viewer = aViewer();
    const texts = Array.from({ length: 200 }, (_, index) => `CODE-${index}`);
    await Promise.all(texts.map((text) => scan(db(), text, viewer)));
    const kept = await db().selectFrom("scan").select("text").where("by", "=", viewer.account).execute();
    expect(kept.map(({ text }) => text).sort()).toEqual([...texts].sort());
  });

  test("shows the piece as last seen then, and by whom, at the next look", async () => {
    const number = await aLiveTag(db(), house.inez, await aHood());
    const account = anId<AccountId>();
    await house.inez.must(openAccountAct, { account, role: "technician", name: "Petra Oxholm" });
    await scan(db(), number, aViewer({ account }));
    const { piece } = await scanFor(db(), "piece", number);
    expect(piece.lastSeen).toMatchObject({
      how: "scan",
      at: "2026-11-24T10:15:00.000Z",
      by: { name: "Petra Oxholm" },
      device: "bench-1",
    });
  });
});
