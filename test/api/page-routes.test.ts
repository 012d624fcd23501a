import { beforeAll, describe, expect, test } from "vitest";
import { giveRoleAct } from "../../server/cases/account-acts.ts";
import { installLayerAct, movePiecesAct, separateLayersAct } from "../../server/cases/bench-acts.ts";
import { listMembersAct, namePlaceAct, registerPiecesAct } from "../../server/cases/register-acts.ts";
import type { MemberId, PieceId, PlaceId } from "../../server/domain/ids.ts";
import type { MakersLabel } from "../../server/domain/pieces/label.ts";
import { aDraft, anId } from "../kit/acting.ts";
import { type Department, openDepartment, scanned } from "../kit/small-department.ts";
import { standingClock } from "../kit/standing-clock.ts";
import { type SignedIn, type TestApp, testApp } from "../kit/test-app.ts";
import { useTestDatabase } from "../kit/test-database.ts";

const database = useTestDatabase();
const [station, rackAtStation] = [anId<PlaceId>(), anId<PlaceId>()];
const mirela = anId<MemberId>();
let house: Department;
let app: TestApp;
let technician: SignedIn;
let officer: SignedIn;
let member: SignedIn;
let atStation: PieceId;
let ofMirela: PieceId;
let ofCorwin: PieceId;

async function register(kind: string, place: PlaceId, label: MakersLabel = {}): Promise<PieceId> {
  const draft = aDraft(kind, place, label);
  await house.inez.must(registerPiecesAct, { pieces: [draft], evidence: "typed" });
  return draft.id;
}
async function issued(to: MemberId): Promise<PieceId> {
  const piece = await register("hood", house.rack);
  const command = {
    pieces: scanned(piece),
    to: { kind: "member" as const, id: to },
    purpose: "issue" as const,
  };
  await house.inez.must(movePiecesAct, command);
  return piece;
}

beforeAll(async () => {
  house = await openDepartment(() => database.app);
  app = testApp(database, standingClock().now);
  await house.inez.must(namePlaceAct, { id: station, name: "Station 2", what: "station", carries: "apart" });
  const inStation = {
    id: rackAtStation,
    name: "Rack S2",
    what: "rack",
    carries: "shared",
    within: station,
  } as const;
  await house.inez.must(namePlaceAct, inStation);
  await house.inez.must(listMembersAct, {
    members: [{ id: mirela, number: "377", name: "Mirela Ferro", station }],
  });
  technician = await app.signedInAs("technician");
  officer = await app.signedInAs("company officer");
  member = await app.signedInAs("member");
  await house.inez.must(giveRoleAct, { account: officer.account, role: "company officer", station });
  await house.inez.must(giveRoleAct, { account: member.account, role: "member", member: mirela });
  atStation = await register("helmet", rackAtStation);
  ofMirela = await issued(mirela);
  ofCorwin = await issued(house.corwin);
});

async function ask(path: string, who = technician) {
  const response = await app.send("GET", path, { cookie: who.cookie });
  return { status: response.status, body: await response.json() };
}
const idsOf = (body: { rows: { id: string }[] }) => body.rows.map(({ id }) => id);

describe("who sees what", () => {
  test("a company officer sees the own station, what hangs in it and its members' gear, and nothing else", async () => {
    const seen = async (path: string) => (await ask(path, officer)).status;
    expect(await seen(`/api/pieces/${atStation}`)).toBe(200);
    expect(await seen(`/api/pieces/${ofMirela}`)).toBe(200);
    expect(await seen(`/api/pieces/${ofCorwin}`)).toBe(403);
    expect(await seen(`/api/places/${rackAtStation}`)).toBe(200);
    expect(await seen(`/api/places/${house.rack}`)).toBe(403);
    expect(await seen(`/api/members/${mirela}`)).toBe(200);
    expect(await seen(`/api/members/${house.corwin}`)).toBe(403);
    expect(idsOf((await ask("/api/pieces", officer)).body)).toEqual([atStation, ofMirela].sort());
    expect((await ask("/api/members", officer)).body.members.map(({ id }: { id: string }) => id)).toEqual([
      mirela,
    ]);
  });

  test("a member sees the own page and gear, and the page says who else looked", async () => {
    await ask(`/api/members/${mirela}`);
    const own = await ask(`/api/members/${mirela}`, member);
    expect(own.body.pieces.map(({ id }: { id: string }) => id)).toEqual([ofMirela]);
    expect(own.body.viewings.map(({ by }: { by: { id: string } }) => by.id)).toContain(technician.account);
    expect((await ask(`/api/members/${house.corwin}`, member)).status).toBe(403);
    expect((await ask(`/api/places/${house.rack}`, member)).status).toBe(403);
    expect(idsOf((await ask("/api/pieces", member)).body)).toEqual([ofMirela]);
    expect((await ask("/api/members", member)).body.members).toHaveLength(1);
  });

  test("a list of members tells of each what the member's page tells", async () => {
    const { members } = (await ask("/api/members")).body;
    for (const listed of members) {
      expect((await ask(`/api/members/${listed.id}`)).body.member).toEqual(listed);
    }
    expect(members.map(({ number }: { number: string }) => number)).toEqual(["214", "377"]);
    const first = (await ask("/api/members?limit=1")).body;
    const second = (await ask(`/api/members?limit=1&after=${first.next}`)).body;
    expect([...first.members, ...second.members]).toEqual(members);
    expect(second.next).toBeUndefined();
  });

  test("a technician sees all", async () => {
    expect(idsOf((await ask("/api/pieces?kind=hood")).body)).toEqual([ofMirela, ofCorwin].sort());
    expect((await ask("/api/members")).body.members).toHaveLength(2);
    expect((await ask("/api/places")).body.places.map(({ name }: { name: string }) => name)).toEqual([
      "Bench 1",
      "Rack B2",
      "Rack S2",
      "Station 2",
    ]);
  });
});

describe("GET /api/pieces", () => {
  test("goes on where the page before ended", async () => {
    const first = await ask("/api/pieces?limit=2");
    const second = await ask(`/api/pieces?limit=2&after=${first.body.next}`);
    expect([...idsOf(first.body), ...idsOf(second.body)]).toEqual([atStation, ofMirela, ofCorwin].sort());
    expect(second.body.next).toBeUndefined();
  });

  test("refuses a state that there is not and a day that is none, each by its name", async () => {
    const answer = await ask("/api/pieces?state=shiny&last-seen-before=yesterday");
    expect([answer.status, answer.body.faults.map(({ path }: { path: string }) => path).sort()]).toEqual([
      422,
      ["last-seen-before", "state"],
    ]);
  });

  test("finds what is ready to issue and what was not seen since a day", async () => {
    expect(idsOf((await ask("/api/pieces?state=ready")).body)).toEqual([atStation]);
    expect(idsOf((await ask("/api/pieces?last-seen-before=2020-01-01")).body)).toEqual([]);
    expect(idsOf((await ask("/api/pieces?last-seen-before=2099-01-01")).body)).toHaveLength(3);
  });
});

describe("GET /api/label-check", () => {
  test("says that the liner differs, and that another one is on record in this shell, and where that is", async () => {
    const shell = await register("coat-shell", house.rack);
    const own = await register("coat-liner", house.bench, { linerCode: "LK-2" });
    await house.inez.must(movePiecesAct, {
      pieces: scanned(own),
      to: { kind: "place", id: house.rack },
      purpose: "storage",
    });
    await house.inez.must(installLayerAct, { shell, layer: own, evidence: "scanned" });
    const wrong = await register("coat-liner", house.bench, { linerCode: "LK-3" });
    const { body } = await ask(`/api/label-check?shell=${shell}&layer=${wrong}`);
    expect([body.check.verdict, body.check.reasons.map(({ code }: { code: string }) => code)]).toEqual([
      "differs",
      ["takes-another"],
    ]);
    expect(body.record).toEqual([
      { code: "another-recorded", layer: own, where: expect.objectContaining({ name: "Rack B2" }) },
    ]);
    await house.inez.must(separateLayersAct, { pieces: scanned(own) });
    const after = await ask(`/api/label-check?shell=${shell}&layer=${wrong}`);
    expect(after.body.record).toMatchObject([{ code: "another-last-here", layer: own }]);
    expect((await ask(`/api/label-check?shell=${shell}&layer=${own}`)).body).toMatchObject({
      check: { verdict: "match" },
      record: [{ code: "last-worn-here" }],
    });
  });
});

describe("pages", () => {
  test("of a place and of a member are asked for on a day and as known at a position", async () => {
    expect((await ask(`/api/places/${house.rack}?on=2026-03-02`)).body.on).toBe("2026-03-02");
    expect((await ask(`/api/members/${mirela}?known-at=1`)).body.knownAt.position).toBe(1);
    expect((await ask(`/api/places/${house.rack}?known-at=99999`)).status).toBe(404);
    expect((await ask(`/api/places/${anId()}`)).status).toBe(404);
    expect((await ask(`/api/places/${house.rack}?on=2026-02-30`)).status).toBe(422);
  });
});
