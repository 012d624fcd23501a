import fc from "fast-check";
import { beforeAll, expect, test } from "vitest";
import { movePiecesAct, recordFoundAct, retirePiecesAct } from "../../server/cases/bench-acts.ts";
import { correctMoveAct } from "../../server/cases/correct-acts.ts";
import { readPlacePage } from "../../server/cases/place-page.ts";
import { namePlaceAct, registerPiecesAct } from "../../server/cases/register-acts.ts";
import { readTrail } from "../../server/cases/trail.ts";
import type { PieceId, PlaceId } from "../../server/domain/ids.ts";
import type { PieceWith, TrailView } from "../../server/domain/page-views.ts";
import type { LocalDate } from "../../server/domain/time.ts";
import { aDraft, anId } from "../kit/acting.ts";
import { type Department, openDepartment, scanned } from "../kit/small-department.ts";
import { useTestDatabase } from "../kit/test-database.ts";

const database = useTestDatabase();
let house: Department;

beforeAll(async () => {
  house = await openDepartment(() => database.app);
});

const HOUR = 3_600_000;
/** One thing that may be tried: on which piece, to which rack, how many hours before now it is said to have happened. */
const attempt = fc.record({
  what: fc.constantFrom("move", "move", "find", "correct", "void", "retire"),
  piece: fc.nat({ max: 2 }),
  rack: fc.nat({ max: 2 }),
  hoursAgo: fc.constantFrom(0, 0, 1, 5, 26, 30, 50, 80),
  version: fc.integer({ min: 2, max: 5 }),
});
type Attempt = (typeof attempt)["generate"] extends (...args: never[]) => { value: infer Value }
  ? Value
  : never;

async function racks(): Promise<PlaceId[]> {
  const ids = [anId<PlaceId>(), anId<PlaceId>(), anId<PlaceId>()];
  for (const id of ids)
    await house.inez.must(namePlaceAct, { id, name: `Rack ${id}`, what: "rack", carries: "shared" });
  return ids;
}

async function carryOut(one: Attempt, piece: PieceId, rack: PlaceId, now: number): Promise<void> {
  const at = new Date(now - one.hoursAgo * HOUR).toISOString();
  const place = { kind: "place" as const, id: rack };
  const target = { piece, version: one.version, note: "the property test says so" };
  // What does not fit the record is refused, and is then no part of what was known.
  if (one.what === "move")
    await house.inez.act(movePiecesAct, { pieces: scanned(piece), to: place, purpose: "transfer" }, at);
  if (one.what === "find")
    await house.inez.act(recordFoundAct, { pieces: scanned(piece), holder: place }, at);
  if (one.what === "correct") await house.inez.act(correctMoveAct, { ...target, to: place }, at);
  if (one.what === "void") await house.inez.act(correctMoveAct, { ...target, void: true }, at);
  if (one.what === "retire")
    await house.inez.act(retirePiecesAct, { pieces: scanned(piece), method: "cut up" }, at);
}

/** Everything that pages and trails say at this moment, or as it was known at a position. */
async function told(
  places: readonly PlaceId[],
  pieces: readonly PieceId[],
  days: readonly LocalDate[],
  knownAt?: number,
) {
  const known = knownAt === undefined ? {} : { knownAt };
  const pages: (readonly PieceWith[])[] = [];
  for (const place of places) {
    for (const on of [undefined, ...days]) {
      const page = await readPlacePage(database.app, place, { limit: 100, ...known, ...(on ? { on } : {}) });
      if ("missing" in page) throw new Error(page.missing);
      pages.push(page.pieces);
    }
  }
  const trails: Omit<TrailView, "knownAt" | "checked" | "names">[] = [];
  for (const piece of pieces) {
    const trail = await readTrail(database.app, piece, 0, knownAt);
    if ("missing" in trail) throw new Error(trail.missing);
    const { knownAt: _, checked: __, names: ___, ...rest } = trail;
    trails.push(rest);
  }
  return { pages, trails };
}

test("what is told as known at a position is what was told when the ledger stood there, late records and corrections or not", async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(attempt, { minLength: 3, maxLength: 9 }), async (attempts) => {
      const places = await racks();
      const now = Date.now();
      const days = [0, 30, 80].map(
        (hours) => new Date(now - hours * HOUR).toISOString().slice(0, 10) as LocalDate,
      );
      const drafts = places.map((place) => aDraft("hood", place));
      const registered = new Date(now - 100 * HOUR).toISOString();
      await house.inez.must(registerPiecesAct, { pieces: drafts, evidence: "typed" }, registered);
      const pieces = drafts.map(({ id }) => id);
      const stands: { position: number; said: Awaited<ReturnType<typeof told>> }[] = [];
      for (const one of attempts) {
        const head = await database.app
          .selectFrom("ledger_head")
          .select("position")
          .executeTakeFirstOrThrow();
        stands.push({ position: head.position, said: await told(places, pieces, days) });
        await carryOut(one, pieces[one.piece] as PieceId, places[one.rack] as PlaceId, now);
      }
      for (const { position, said } of stands) {
        expect(await told(places, pieces, days, position)).toEqual(said);
      }
    }),
    { numRuns: 12 },
  );
}, 240_000);
