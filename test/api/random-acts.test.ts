import fc from "fast-check";
import { sql } from "kysely";
import { beforeAll, expect, test } from "vitest";
import {
  installLayerAct,
  liftHoldAct,
  movePiecesAct,
  placeHoldAct,
  recordCleaningAct,
  recordFoundAct,
  retirePiecesAct,
  separateLayersAct,
} from "../../server/cases/bench-acts.ts";
import { correctMoveAct } from "../../server/cases/correct-acts.ts";
import { registerPiecesAct } from "../../server/cases/register-acts.ts";
import type { ActOutcome } from "../../server/cases/run-act.ts";
import { verifyLedger } from "../../server/cases/verify.ts";
import { verifyPiece } from "../../server/cases/verify-piece.ts";
import type { Holder } from "../../server/domain/custody/holder.ts";
import { WHEREABOUTS_UNKNOWN } from "../../server/domain/custody/holder.ts";
import type { PieceId } from "../../server/domain/ids.ts";
import { PROJECTED_TABLES } from "../../server/store/projected-rows.ts";
import { rebuildProjections } from "../../server/store/rebuild-projections.ts";
import { aDraft } from "../kit/acting.ts";
import { type Department, openDepartment, scanned } from "../kit/small-department.ts";
import { useTestDatabase } from "../kit/test-database.ts";

const database = useTestDatabase();
let department: Department;
let holders: readonly Holder[];
beforeAll(async () => {
  department = await openDepartment(() => database.app);
  const { rack, bench, corwin } = department;
  holders = [
    { kind: "place", id: rack },
    { kind: "place", id: bench },
    { kind: "member", id: corwin },
    { kind: "in transit" },
    WHEREABOUTS_UNKNOWN,
  ];
});

/** Two shells, three liners that fit either, and a hood; which of them an act is about is a number. */
const KINDS = ["coat-shell", "coat-shell", "coat-liner", "coat-liner", "coat-liner", "hood"];
const aNumber = fc.nat(KINDS.length - 1);
const anAct = fc.record({
  what: fc.constantFrom(
    "move",
    "move",
    "found",
    "install",
    "install",
    "separate",
    "clean",
    "hold",
    "lift",
    "correct",
    "void",
    "retire",
  ),
  piece: aNumber,
  other: aNumber,
  holder: fc.nat(4),
  /** Minutes after the registration; late and early ones alike. */
  minute: fc.nat(60),
  version: fc.integer({ min: 1, max: 6 }),
});
type RandomAct = typeof anAct extends fc.Arbitrary<infer Value> ? Value : never;

function tryAct(pieces: readonly PieceId[], random: RandomAct): Promise<ActOutcome> {
  const { inez } = department;
  const at = new Date(Date.parse("2026-03-05T08:00:00Z") + random.minute * 60_000).toISOString();
  const piece = pieces[random.piece] as PieceId;
  const other = pieces[random.other] as PieceId;
  const to = holders[random.holder] as Holder;
  const { version } = random;
  const note = "said so";
  switch (random.what) {
    case "move":
      return inez.act(movePiecesAct, { pieces: scanned(piece), to, purpose: "transfer" }, at);
    case "found":
      return inez.act(
        recordFoundAct,
        { pieces: scanned(piece), holder: to, fitted: [{ shell: piece, layer: other }] },
        at,
      );
    case "install":
      return inez.act(installLayerAct, { shell: piece, layer: other, evidence: "scanned" }, at);
    case "separate":
      return inez.act(separateLayersAct, { pieces: scanned(piece) }, at);
    case "clean":
      return inez.act(recordCleaningAct, { pieces: scanned(piece), how: "advanced cleaning" }, at);
    case "hold":
      return inez.act(placeHoldAct, { pieces: [piece], hold: "finding", note }, at);
    case "lift":
      return inez.act(liftHoldAct, { piece, version, note }, at);
    case "correct":
      return inez.act(correctMoveAct, { piece, version, to, note }, at);
    case "void":
      return inez.act(correctMoveAct, { piece, version, void: true, note }, at);
    case "retire":
      return inez.act(retirePiecesAct, { pieces: scanned(piece), method: "cut up" }, at);
  }
}

async function registerAll(): Promise<PieceId[]> {
  const { inez, rack } = department;
  const drafts = KINDS.map((kind) => aDraft(kind, rack, kind === "coat-liner" ? { linerCode: "LK-2" } : {}));
  await inez.must(registerPiecesAct, { pieces: drafts, evidence: "typed" }, "2026-03-05T08:00:00Z");
  return drafts.map(({ id }) => id);
}

async function expectOneHolder(piece: PieceId): Promise<void> {
  const stays = await database.app
    .selectFrom("stay")
    .selectAll()
    .where("piece", "=", piece)
    .orderBy("n")
    .execute();
  expect(stays.filter((stay) => stay.to_at === null)).toHaveLength(1);
  for (const [index, stay] of stays.entries()) expect(stay.to_at).toEqual(stays[index + 1]?.from_at ?? null);
  const row = await database.app
    .selectFrom("piece")
    .selectAll()
    .where("id", "=", piece)
    .executeTakeFirstOrThrow();
  expect([row.holder_kind, row.holder]).toEqual([stays.at(-1)?.holder_kind, stays.at(-1)?.holder]);
}

let writtenActs = 0;
let refusedActs = 0;

test("any order of acts, two or three at once, leaves one holder a piece and rows that follow from the entries", async () => {
  await fc.assert(
    fc.asyncProperty(
      fc.array(fc.array(anAct, { minLength: 1, maxLength: 3 }), { maxLength: 8 }),
      async (rounds) => {
        const pieces = await registerAll();
        for (const atOnce of rounds) {
          const outcomes = await Promise.all(atOnce.map((one) => tryAct(pieces, one)));
          writtenActs += outcomes.filter((outcome) => "written" in outcome).length;
          refusedActs += outcomes.filter((outcome) => "refusals" in outcome).length;
        }
        for (const piece of pieces) {
          await expectOneHolder(piece);
          expect((await verifyPiece(database.app, piece)).findings).toEqual([]);
        }
      },
    ),
    { numRuns: 50, endOnFailure: true },
  );
  expect(Math.min(writtenActs, refusedActs)).toBeGreaterThan(50);
}, 240_000);

test("the tables rebuilt from all these entries are equal to those that the acts wrote", async () => {
  const contents = async () => {
    const all: Record<string, unknown> = {};
    for (const table of Object.keys(PROJECTED_TABLES)) {
      all[table] = (
        await sql`select to_jsonb(t) as row from ${sql.table(table)} t order by 1`.execute(database.app)
      ).rows;
    }
    return all;
  };
  const before = await contents();
  expect(await database.app.transaction().execute((tx) => rebuildProjections(tx))).toEqual([]);
  expect(await contents()).toEqual(before);
  expect((await verifyLedger(database.app)).findings).toEqual([]);
});
