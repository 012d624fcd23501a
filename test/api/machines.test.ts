import { beforeAll, describe, expect, test } from "vitest";
import { movePiecesAct } from "../../server/cases/bench-acts.ts";
import { endLoadAct, startLoadAct } from "../../server/cases/load-acts.ts";
import {
  checkMachineAct,
  closeMachineAct,
  describeMachineAct,
  describeProgrammeAct,
  endProgrammeAct,
} from "../../server/cases/machine-acts.ts";
import { findPropertyAct, giveBackPropertyAct } from "../../server/cases/property-acts.ts";
import { registerPiecesAct } from "../../server/cases/register-acts.ts";
import type { LoadId, MachineId, PieceId } from "../../server/domain/ids.ts";
import type { Role } from "../../server/domain/register/account.ts";
import { aDraft, anId } from "../kit/acting.ts";
import { type AMachine, aWasher } from "../kit/machines.ts";
import { type Department, openDepartment, scanned } from "../kit/small-department.ts";
import { standingClock } from "../kit/standing-clock.ts";
import { oneOfEachRole, type SignedIn, type TestApp, testApp } from "../kit/test-app.ts";
import { useTestDatabase } from "../kit/test-database.ts";

const database = useTestDatabase();
let house: Department;
let app: TestApp;
let people: ReadonlyMap<Role, SignedIn>;
let washer: AMachine;

beforeAll(async () => {
  house = await openDepartment(() => database.app);
  app = testApp(database, standingClock().now);
  people = await oneOfEachRole(app);
  washer = await aWasher(house.inez);
});

async function ask(path: string, role: Role = "technician") {
  const response = await app.send("GET", path, { cookie: people.get(role)?.cookie });
  return { status: response.status, text: await response.text() };
}
const asked = async (path: string) => JSON.parse((await ask(path)).text);

/** A hood that goes through the washer at a time. */
async function ran(from: string, to: string): Promise<{ readonly load: LoadId; readonly piece: PieceId }> {
  const draft = aDraft("hood", house.rack);
  const load = anId<LoadId>();
  await house.inez.must(registerPiecesAct, { pieces: [draft], evidence: "typed" }, "2026-03-01T08:00:00Z");
  await house.inez.must(startLoadAct, { load, machine: washer.machine, pieces: scanned(draft.id) }, from);
  await house.inez.must(endLoadAct, { load, outcome: "as programmed" }, to);
  return { load, piece: draft.id };
}

describe("a machine", () => {
  test("is shown with its programmes, the extraction computed and compared with the limits", async () => {
    const { machines } = await asked("/api/machines");
    expect(machines).toMatchObject([
      {
        ...{ name: "Washer 1", what: "washer-extractor", drumDiameterMm: 762 },
        programmes: [{ name: "Turnout gear", usual: true, over: [], unknown: [] }],
      },
    ]);
    expect(machines[0].programmes[0].extractionG).toBeCloseTo(98.0, 1);
    expect((await ask("/api/machines", "member")).status).toBe(403);
  });

  test("has one usual programme: the one that was made it last; one that was given up is offered no more", async () => {
    const own = await aWasher(house.inez, { name: "Washer 8" });
    const id = anId<AMachine["programme"]>();
    const gentle = { name: "Liners", how: "advanced cleaning" as const };
    await house.inez.must(describeProgrammeAct, { machine: own.machine, id, programme: gentle, usual: true });
    const usual = async () =>
      (await asked(`/api/machines/${own.machine}`)).programmes.map(
        (one: { name: string; usual: boolean }) => [one.name, one.usual],
      );
    expect(await usual()).toEqual([
      ["Liners", true],
      ["Turnout gear", false],
    ]);
    await house.inez.must(endProgrammeAct, { machine: own.machine, id });
    expect(await usual()).toEqual([["Turnout gear", false]]);
    await house.inez.must(closeMachineAct, { machine: own.machine });
    expect((await ask(`/api/machines/${own.machine}`)).status).toBe(404);
  });

  test("stands at a place of its own, since the place's card names it", async () => {
    const facts = { name: "Another", what: "dryer" as const, place: washer.place };
    const command = { id: anId<MachineId>(), ...facts };
    expect(await house.inez.refusalsOf(describeMachineAct, command)).toEqual(["machine-there"]);
  });

  test("found faulty, everything it ran from its last good check to the next is one question away, as CSV too", async () => {
    await ran("2026-03-02T10:00:00Z", "2026-03-02T11:00:00Z");
    await house.inez.must(
      checkMachineAct,
      { machine: washer.machine, outcome: "in order" },
      "2026-03-03T08:00:00Z",
    );
    const [one, two] = [
      await ran("2026-03-03T10:00:00Z", "2026-03-03T11:00:00Z"),
      await ran("2026-03-04T10:00:00Z", "2026-03-04T11:00:00Z"),
    ];
    const found = "2026-03-05T08:00:00Z";
    await house.inez.must(checkMachineAct, { machine: washer.machine, outcome: "faulty" }, found);
    await house.inez.must(
      checkMachineAct,
      { machine: washer.machine, outcome: "in order" },
      "2026-03-06T08:00:00Z",
    );
    const later = await ran("2026-03-06T10:00:00Z", "2026-03-06T11:00:00Z");
    await house.inez.must(
      startLoadAct,
      { load: anId<LoadId>(), machine: washer.machine, pieces: scanned(two.piece) },
      "2026-03-07T10:00:00Z",
    );
    const path = `/api/machines/${washer.machine}/loads`;
    const answer = await asked(`${path}?found-faulty-at=${found}`);
    expect(answer).toMatchObject({
      ...{ from: "2026-03-03T08:00:00.000Z", to: "2026-03-06T08:00:00.000Z" },
      loads: [
        { id: two.load, pieces: [{ id: two.piece, kind: "Hood", where: { name: "Washer 1" } }] },
        { id: one.load, pieces: [{ id: one.piece, washedSince: false }] },
      ],
    });
    const all = await asked(path);
    expect(all.loads.map(({ id }: { id: string }) => id)).toContain(later.load);
    const csv = await ask(`${path}.csv?found-faulty-at=${found}`);
    expect(csv.text.trim().split("\r\n")).toEqual([
      "machine,programme,started,ended,outcome,piece,tag number,now with,washed since",
      "Washer 1,Turnout gear,2026-03-04T10:00:00.000Z,2026-03-04T11:00:00.000Z,as programmed,Hood,,Washer 1,no",
      "Washer 1,Turnout gear,2026-03-03T10:00:00.000Z,2026-03-03T11:00:00.000Z,as programmed,Hood,,Washer 1,no",
    ]);
  });
});

describe("found property", () => {
  test("gets receipts that count on, and is given back once", async () => {
    const draft = aDraft("hood", house.rack);
    await house.inez.must(registerPiecesAct, { pieces: [draft], evidence: "typed" });
    const find = { piece: draft.id, evidence: "scanned" as const };
    await house.inez.must(findPropertyAct, { ...find, what: "a door key" });
    await house.inez.must(findPropertyAct, { ...find, what: "a radio battery" });
    const rows = () => database.app.selectFrom("found_property").selectAll().orderBy("receipt").execute();
    expect((await rows()).map(({ receipt }) => receipt)).toEqual(["P-000001", "P-000002"]);
    const back = { piece: draft.id, receipt: "P-000001", to: house.corwin };
    await house.inez.must(giveBackPropertyAct, back);
    expect((await rows())[0]?.given_back_to).toBe(house.corwin);
    expect(await house.inez.refusalsOf(giveBackPropertyAct, back)).toEqual(["nothing-to-do"]);
  });
});

test("what came in soiled says since when, until it was washed", async () => {
  const draft = aDraft("hood", house.rack);
  await house.inez.must(registerPiecesAct, { pieces: [draft], evidence: "typed" });
  const to = { kind: "place" as const, id: house.bench };
  const move = { pieces: scanned(draft.id), to, purpose: "turn in" as const, soiled: true };
  await house.inez.must(movePiecesAct, move, "2026-04-01T10:00:00Z");
  const view = await asked(`/api/pieces/${draft.id}`);
  expect(view).toMatchObject({ soiled: true, soiledSince: "2026-04-01T10:00:00.000Z" });
});
