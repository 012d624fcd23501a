import { beforeAll, describe, expect, test } from "vitest";
import { movePiecesAct } from "../../server/cases/bench-acts.ts";
import { bindForeignCodeAct, registerPiecesAct } from "../../server/cases/register-acts.ts";
import type { PieceId } from "../../server/domain/ids.ts";
import type { Role } from "../../server/domain/register/account.ts";
import type { TagNumber } from "../../server/domain/tags/tag-number.ts";
import { aDraft } from "../kit/acting.ts";
import { aLiveTag } from "../kit/scanning.ts";
import { type Department, openDepartment, scanned } from "../kit/small-department.ts";
import { standingClock } from "../kit/standing-clock.ts";
import { oneOfEachRole, type SignedIn, type TestApp, testApp } from "../kit/test-app.ts";
import { useTestDatabase } from "../kit/test-database.ts";

const database = useTestDatabase();
let house: Department;
let app: TestApp;
let people: ReadonlyMap<Role, SignedIn>;
let piece: PieceId;
let number: TagNumber;

beforeAll(async () => {
  house = await openDepartment(() => database.app);
  app = testApp(database, standingClock().now);
  people = await oneOfEachRole(app);
  const draft = aDraft("hood", house.rack);
  await house.inez.must(registerPiecesAct, { pieces: [draft], evidence: "typed" });
  piece = draft.id;
  number = await aLiveTag(database.app, house.inez, piece);
});

async function ask(path: string, cookie = people.get("technician")?.cookie) {
  const response = await app.send("GET", path, { cookie });
  return { status: response.status, body: await response.json() };
}

describe("GET /api/scan", () => {
  test("answers a number with its piece, and the scan is kept under the one who is signed in", async () => {
    const answer = await ask(`/api/scan/${number}?mode=look%20up&via=wedge`);
    expect([answer.status, answer.body.kind, answer.body.piece.id]).toEqual([200, "piece", piece]);
    await expect
      .poll(() => database.app.selectFrom("scan").select("by").where("subject", "=", piece).execute())
      .toEqual([{ by: people.get("technician")?.account }]);
  });

  test.each([
    "TARN/00-0481",
    "10% wool?&#x",
    "\u001d0109501101020917215T0004711",
    "[)>\u001e06\u001d9NABC\u001e\u0004",
    "https://maker.example/p/77?x=1",
    "ärmel 7",
  ])("takes %j as it was read, slashes and control characters included", async (text) => {
    const answer = await ask(`/api/scan/${encodeURIComponent(text)}?mode=look%20up&via=camera`);
    expect([answer.status, answer.body.kind, answer.body.text]).toEqual([200, "foreign", text]);
  });

  test("opens the piece that a code with a slash is bound to", async () => {
    await house.inez.must(bindForeignCodeAct, { piece, code: "TARN/7/1" });
    const answer = await ask("/api/scan/TARN%2F7%2F1?mode=look%20up&via=wedge");
    expect(answer.body.piece.id).toBe(piece);
  });

  test("lets a bare badge scan for a turn-in, and for nothing else", async () => {
    const { cookie } = await app.signedInAs("technician", "badge");
    expect((await ask(`/api/scan/${number}?mode=turn%20in%20soiled&via=wedge`, cookie)).status).toBe(200);
    expect((await ask(`/api/scan/${number}?mode=look%20up&via=wedge`, cookie)).body.code).toBe(
      "badge-may-not",
    );
  });
});

describe("GET /api/pieces/{piece}", () => {
  test("shows the piece, and a piece of nobody is not found", async () => {
    expect((await ask(`/api/pieces/${piece}`)).body).toMatchObject({
      id: piece,
      number,
      holder: { name: "Rack B2" },
    });
    expect((await ask("/api/pieces/01950000-0000-7000-8000-00000000dead")).status).toBe(404);
  });

  test("is not for a member whose gear it is not, nor for an officer of another station", async () => {
    for (const role of ["member", "company officer"] as const) {
      expect((await ask(`/api/pieces/${piece}`, people.get(role)?.cookie)).status).toBe(403);
    }
  });

  test("shows who has it once it was issued", async () => {
    await house.inez.must(movePiecesAct, {
      pieces: scanned(piece),
      to: { kind: "member", id: house.corwin },
      purpose: "issue",
      set: "front-line",
    });
    const { body } = await ask(`/api/pieces/${piece}`);
    expect(body.holder).toMatchObject({ kind: "member", name: "Corwin Bask", detail: "214" });
    expect(body.assignment).toMatchObject({ set: "front-line", member: { name: "Corwin Bask" } });
    expect(body.ready.reasons.map(({ code }: { code: string }) => code)).toEqual(["not-at-a-place"]);
  });
});

describe("GET /api/pieces/{piece}/trail", () => {
  test("tells the trail, and as known before the issue the piece is still on its rack", async () => {
    const now = await ask(`/api/pieces/${piece}/trail`);
    expect([now.status, now.body.piece.holder.name, now.body.checked.changed]).toEqual([
      200,
      "Corwin Bask",
      [],
    ]);
    const issued = now.body.entries.at(-1).position;
    const before = await ask(`/api/pieces/${piece}/trail?known-at=${issued - 1}`);
    expect([before.body.piece.holder.name, before.body.knownAt.position]).toEqual(["Rack B2", issued - 1]);
  });

  test("says of a position that is none, and of one that was not reached, what is wrong", async () => {
    expect((await ask(`/api/pieces/${piece}/trail?known-at=first`)).status).toBe(422);
    const beyond = await ask(`/api/pieces/${piece}/trail?known-at=999999`);
    expect([beyond.status, beyond.body.detail]).toEqual([404, expect.stringContaining("has not come to")]);
  });

  test("is not for a member whose gear it is not", async () => {
    expect((await ask(`/api/pieces/${piece}/trail`, people.get("member")?.cookie)).status).toBe(403);
  });
});
