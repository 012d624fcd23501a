import { beforeAll, expect, test } from "vitest";
import { movePiecesAct, placeHoldAct, retirePiecesAct } from "../../server/cases/bench-acts.ts";
import { correctMoveAct, takeBackAct } from "../../server/cases/correct-acts.ts";
import { registerPiecesAct } from "../../server/cases/register-acts.ts";
import type { PieceId, PlaceId } from "../../server/domain/ids.ts";
import { actor, aDraft, anId } from "../kit/acting.ts";
import { type Department, openDepartment, scanned } from "../kit/small-department.ts";
import { useTestDatabase } from "../kit/test-database.ts";

const database = useTestDatabase();
const db = () => database.app;
const technician = actor(db, "technician", "2026-04-01T09:00:00Z");
const other = actor(db, "technician", "2026-04-01T10:00:00Z");
let department: Department;
beforeAll(async () => {
  department = await openDepartment(db);
});

async function aHood(): Promise<PieceId> {
  const draft = aDraft("hood", department.rack);
  await department.inez.must(registerPiecesAct, { pieces: [draft], evidence: "typed" });
  return draft.id;
}

test("a hold placed by mistake is corrected by who placed it or may lift it, and by nobody else", async () => {
  const piece = await aHood();
  await technician.must(placeHoldAct, { pieces: [piece], hold: "evidence" });
  const wrong = { piece, version: 2, void: true as const, note: "Another hood." };
  expect(await other.refusalsOf(correctMoveAct, wrong)).toEqual(["not-yours-to-lift"]);
  await technician.must(correctMoveAct, wrong);
  const held = await db().selectFrom("piece").select("held").where("id", "=", piece).executeTakeFirst();
  expect(held?.held).toBe(false);
});

test("a retirement is taken back by those who retire, as one entry or as the whole act", async () => {
  const piece = await aHood();
  const { inez } = department;
  const retired = await inez.act(retirePiecesAct, { pieces: scanned(piece), method: "cut up" });
  const act = "written" in retired ? retired.written.id : anId();
  expect(await technician.refusalsOf(takeBackAct, { act, note: "Wrong hood." })).toEqual(["role"]);
  await inez.must(takeBackAct, { act, note: "Wrong hood." });
});

test("a move is not corrected to a place that is not on record", async () => {
  const piece = await aHood();
  const to = { kind: "place" as const, id: department.bench };
  await technician.must(movePiecesAct, { pieces: scanned(piece), to, purpose: "transfer" });
  const nowhere = { kind: "place" as const, id: anId<PlaceId>() };
  const note = "It went elsewhere.";
  const refused = await technician.refusalsOf(correctMoveAct, { piece, version: 2, to: nowhere, note });
  expect(refused).toEqual(["unknown-subject"]);
});
