import { beforeAll, describe, expect, test } from "vitest";
import { movePiecesAct } from "../../server/cases/bench-acts.ts";
import { correctMoveAct } from "../../server/cases/correct-acts.ts";
import type { HolderQuestion } from "../../server/cases/holder-page.ts";
import { readPlacePage } from "../../server/cases/place-page.ts";
import { namePlaceAct, registerPiecesAct } from "../../server/cases/register-acts.ts";
import { setSettingsAct } from "../../server/cases/rule-acts.ts";
import type { PieceId, PlaceId } from "../../server/domain/ids.ts";
import type { PlacePage } from "../../server/domain/page-views.ts";
import type { MakersLabel } from "../../server/domain/pieces/label.ts";
import type { LocalDate } from "../../server/domain/time.ts";
import { aDraft, anId } from "../kit/acting.ts";
import { type Department, openDepartment, scanned } from "../kit/small-department.ts";
import { useTestDatabase } from "../kit/test-database.ts";

const database = useTestDatabase();
let house: Department;

beforeAll(async () => {
  house = await openDepartment(() => database.app);
  await house.inez.must(setSettingsAct, { settings: { "time zone": "America/Chicago" } });
});

async function aRack(within?: PlaceId): Promise<PlaceId> {
  const id = anId<PlaceId>();
  const place = {
    id,
    name: `Rack ${id}`,
    what: "rack",
    carries: "shared",
    ...(within ? { within } : {}),
  } as const;
  await house.inez.must(namePlaceAct, place);
  return id;
}
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
async function placePage(id: PlaceId, asked: Partial<HolderQuestion> = {}): Promise<PlacePage> {
  const page = await readPlacePage(database.app, id, { limit: 100, ...asked });
  if ("missing" in page) throw new Error(`There is no ${page.missing}.`);
  return page;
}
async function head(): Promise<number> {
  return (await database.app.selectFrom("ledger_head").select("position").executeTakeFirstOrThrow()).position;
}
const day = (text: string) => text as LocalDate;

describe("a place's page", () => {
  test("shows what is there now with since when, and the places within it with their counts", async () => {
    const cage = await aRack();
    const rack = await aRack(cage);
    const here = await register(cage, "2026-03-10T15:00:00Z");
    await register(rack);
    await register(rack);
    const page = await placePage(cage);
    expect(page.pieces).toMatchObject([{ id: here, from: "2026-03-10T15:00:00.000Z", evidence: "typed" }]);
    expect(page.inside).toMatchObject([{ place: { id: rack }, pieces: 2 }]);
    expect([page.on, page.timeZone]).toEqual([undefined, "America/Chicago"]);
  });

  test("shows who was there on a day of the department's time zone, not of the clock's", async () => {
    const [rack, other] = [await aRack(), await aRack()];
    // 20:30 in Chicago on the 4th is 02:30 of the 5th in UTC.
    const hood = await register(rack, "2026-03-05T02:30:00Z");
    await move(hood, other, "2026-03-05T04:00:00Z");
    expect((await placePage(rack, { on: day("2026-03-04") })).pieces.map(({ id }) => id)).toEqual([hood]);
    expect((await placePage(rack, { on: day("2026-03-05") })).pieces).toEqual([]);
    expect((await placePage(other, { on: day("2026-03-04") })).pieces.map(({ id }) => id)).toEqual([hood]);
  });

  test("counts a stay of no length on its own day, and one that ended at midnight not on the next", async () => {
    const [rack, other] = [await aRack(), await aRack()];
    const passing = await register(other, "2026-04-01T12:00:00Z");
    await move(passing, rack, "2026-04-02T15:00:00Z");
    await move(passing, other, "2026-04-02T15:00:00Z");
    const leaving = await register(rack, "2026-04-01T12:00:00Z");
    // Midnight in Chicago, in summer time.
    await move(leaving, other, "2026-04-02T05:00:00Z");
    const ids = async (on: string) => (await placePage(rack, { on: day(on) })).pieces.map(({ id }) => id);
    expect(await ids("2026-04-01")).toEqual([leaving]);
    expect(await ids("2026-04-02")).toEqual([passing]);
  });

  test("marks what was recorded after that day: when the coming was, and when the going", async () => {
    const [rack, other] = [await aRack(), await aRack()];
    const hood = await register(other, "2026-05-01T12:00:00Z");
    await move(hood, rack, "2026-05-02T12:00:00Z");
    const { pieces } = await placePage(rack, { on: day("2026-05-02") });
    // Everything in this test is recorded today, long after the day that it happened on.
    expect(pieces[0]?.recordedLater?.coming).toMatch(/Z$/);
    expect(pieces[0]?.recordedLater?.going).toBeUndefined();
    const today = new Date(Date.now() + 2 * 86_400_000).toISOString().slice(0, 10);
    expect((await placePage(rack, { on: day(today) })).pieces[0]?.recordedLater).toBeUndefined();
  });

  test("as known at a position shows what was corrected away since, and not what came late", async () => {
    const [rack, other] = [await aRack(), await aRack()];
    const mistaken = await register(other, "2026-06-01T12:00:00Z");
    await move(mistaken, rack, "2026-06-02T12:00:00Z");
    const late = await register(other, "2026-06-01T12:00:00Z");
    const then = await head();
    const instead = {
      piece: mistaken,
      version: 2,
      to: { kind: "place" as const, id: other },
      note: "wrong card",
    };
    await house.inez.must(correctMoveAct, instead);
    await move(late, rack, "2026-06-02T13:00:00Z");
    const now = await placePage(rack, { on: day("2026-06-02") });
    expect(now.pieces.map(({ id }) => id)).toEqual([late]);
    const known = await placePage(rack, { on: day("2026-06-02"), knownAt: then });
    expect(known.knownAt?.position).toBe(then);
    expect(known.pieces).toMatchObject([
      { id: mistaken, from: "2026-06-02T12:00:00.000Z", holder: { id: rack } },
    ]);
    expect((await placePage(rack, { knownAt: then })).pieces.map(({ id }) => id)).toEqual([mistaken]);
  });

  test("as known at the newest position is the page as it is now", async () => {
    const [rack, other] = [await aRack(), await aRack()];
    for (let count = 0; count < 5; count++) await register(rack, "2026-07-01T12:00:00Z");
    await move(await register(rack, "2026-07-01T12:00:00Z"), other, "2026-07-03T12:00:00Z");
    for (const on of [undefined, day("2026-07-02"), day("2026-07-03")]) {
      const asked = on ? { on } : {};
      const { knownAt: _, ...known } = await placePage(rack, { ...asked, knownAt: await head() });
      expect(known).toEqual(await placePage(rack, asked));
    }
  });

  test("goes on after the last piece shown until all were shown once, now, on a day and as known then", async () => {
    const rack = await aRack();
    const all: PieceId[] = [];
    for (let count = 0; count < 7; count++) all.push(await register(rack, "2026-08-01T12:00:00Z"));
    const position = await head();
    for (const asked of [{}, { on: day("2026-08-02") }, { knownAt: position }]) {
      const seen: PieceId[] = [];
      for (let after: PieceId | undefined, more = true; more; ) {
        const page = await placePage(rack, { ...asked, limit: 3, ...(after ? { after } : {}) });
        seen.push(...page.pieces.map(({ id }) => id));
        more = page.next !== undefined;
        after = page.next;
      }
      expect(seen).toEqual([...all].sort());
    }
  });

  test("of a place that nobody named, or a position that was not reached, is not there", async () => {
    expect(await readPlacePage(database.app, anId(), { limit: 5 })).toEqual({ missing: "subject" });
    const rack = await aRack();
    expect(await readPlacePage(database.app, rack, { limit: 5, knownAt: 999_999 })).toEqual({
      missing: "position",
    });
  });
});
