import { beforeAll, describe, expect, test } from "vitest";
import {
  installLayerAct,
  movePiecesAct,
  recordFoundAct,
  separateLayersAct,
} from "../../server/cases/bench-acts.ts";
import { endLoadAct, startLoadAct } from "../../server/cases/load-acts.ts";
import { registerPiecesAct } from "../../server/cases/register-acts.ts";
import type { LoadId, PieceId } from "../../server/domain/ids.ts";
import type { BenchList } from "../../server/domain/reassemble/bench-list.ts";
import { leftOver } from "../../server/domain/reassemble/left-over.ts";
import { planFittings } from "../../server/domain/reassemble/plan-fittings.ts";
import type { Role } from "../../server/domain/register/account.ts";
import { loadMates } from "../../server/store/bench-fittings.ts";
import { aDraft, anId } from "../kit/acting.ts";
import { aWasher } from "../kit/machines.ts";
import { aLiveTag, scan } from "../kit/scanning.ts";
import { type Department, openDepartment, scanned } from "../kit/small-department.ts";
import { standingClock } from "../kit/standing-clock.ts";
import { oneOfEachRole, type SignedIn, type TestApp, testApp } from "../kit/test-app.ts";
import { useTestDatabase } from "../kit/test-database.ts";

const database = useTestDatabase();
let house: Department;
let app: TestApp;
let people: ReadonlyMap<Role, SignedIn>;

beforeAll(async () => {
  house = await openDepartment(() => database.app);
  app = testApp(database, standingClock().now);
  people = await oneOfEachRole(app);
});

async function coats(count: number): Promise<{ shells: PieceId[]; liners: PieceId[] }> {
  const drafts = Array.from({ length: count }, () => [
    aDraft("coat-shell", house.rack, { linerCode: "LK-2" }),
    aDraft("coat-liner", house.rack, { linerCode: "LK-2" }),
  ]);
  await house.inez.must(registerPiecesAct, { pieces: drafts.flat(), evidence: "typed" });
  const ids = drafts.map(([shell, liner]) => [shell?.id as PieceId, liner?.id as PieceId] as const);
  for (const [shell, layer] of ids)
    await house.inez.must(installLayerAct, { shell, layer, evidence: "scanned" });
  return { shells: ids.map(([shell]) => shell), liners: ids.map(([, liner]) => liner) };
}

async function ask(pieces: readonly PieceId[], role: Role = "technician"): Promise<BenchList> {
  const response = await app.send("POST", "/api/bench-list", {
    ...{ cookie: people.get(role)?.cookie, body: { pieces } },
  });
  expect(response.status).toBe(200);
  return response.json();
}

const planned = (list: BenchList) =>
  planFittings(list).places.flatMap(({ fittings }) =>
    fittings.map(({ shell, layer, by }) => [shell, layer, by] as const),
  );

describe("what the record says of pieces on a bench", () => {
  test("brings each liner back to the shell that it was taken out of, in whatever order they are scanned", async () => {
    const { shells, liners } = await coats(3);
    await house.inez.must(separateLayersAct, { pieces: scanned(...shells) });
    const list = await ask([...liners, ...shells].reverse());
    expect(new Set(planned(list))).toEqual(
      new Set(shells.map((shell, at) => [shell, liners[at] as PieceId, "own"] as const)),
    );
  });

  test("says what is needed, and by whom and when a missing liner was seen last", async () => {
    const { shells, liners } = await coats(1);
    const [shell, liner] = [shells[0] as PieceId, liners[0] as PieceId];
    const number = await aLiveTag(database.app, house.inez, liner);
    await house.inez.must(separateLayersAct, { pieces: scanned(shell) });
    await scan(database.app, number);
    const list = await ask([shell]);
    expect(list.needs[shell]).toEqual([{ layerKind: "coat-liner" }]);
    expect(list.absent).toMatchObject([{ piece: { id: liner, number }, lastSeen: { device: "bench-1" } }]);
    expect(leftOver(list, planFittings(list)).wouldFree).toEqual([
      { missing: liner, layerKind: "coat-liner", goesIn: shell, frees: shell },
    ]);
  });

  test("says in which shell a missing liner is now", async () => {
    const { shells, liners } = await coats(2);
    await house.inez.must(separateLayersAct, { pieces: scanned(...shells) });
    const [a, b] = shells as [PieceId, PieceId];
    await house.inez.must(installLayerAct, { shell: b, layer: liners[0] as PieceId, evidence: "scanned" });
    const list = await ask([a]);
    expect(list.absent.find(({ piece }) => piece.id === liners[0])?.fittedIn?.id).toBe(b);
    // It was installed in another shell since, so it is no longer this one's own.
    expect(planFittings(list).own.layerOf(a, "coat-liner")).toBeUndefined();
  });

  test("knows liners that were found in a circle from liners that were installed", async () => {
    const { shells, liners } = await coats(3);
    const inCircle = shells.map((shell, at) => ({ shell, layer: liners[(at + 1) % 3] as PieceId }));
    await house.inez.must(recordFoundAct, {
      pieces: scanned(...shells),
      holder: { kind: "place", id: house.bench },
      fitted: inCircle,
    });
    const list = await ask([...shells, ...liners]);
    expect(new Set(planned(list))).toEqual(
      new Set(shells.map((shell, at) => [shell, liners[at] as PieceId, "own"] as const)),
    );
  });

  test("begins with what the last load of a machine took out, and says where its other pieces are", async () => {
    const washer = await aWasher(house.inez);
    const { shells } = await coats(2);
    await house.inez.must(separateLayersAct, { pieces: scanned(...shells) });
    const load = anId<LoadId>();
    await house.inez.must(startLoadAct, { load, machine: washer.machine, pieces: scanned(...shells) });
    await house.inez.must(endLoadAct, { load, outcome: "as programmed" });
    const [a, b] = shells as [PieceId, PieceId];
    const place = { kind: "place" as const, id: house.bench };
    await house.inez.must(movePiecesAct, { pieces: scanned(a), to: place, purpose: "transfer" });
    const asked = await app.send("GET", `/api/machines/${washer.machine}/last-load`, {
      cookie: people.get("technician")?.cookie,
    });
    expect(new Set((await asked.json()).pieces)).toEqual(new Set(shells));
    const mates = await loadMates(database.app, [b]);
    expect(mates.get(b)).toMatchObject([{ kind: "place", name: "Bench 1" }]);
  });

  test("is for those who work at the bench", async () => {
    const response = await app.send("POST", "/api/bench-list", {
      ...{ cookie: people.get("member")?.cookie, body: { pieces: [] } },
    });
    expect(response.status).toBe(403);
  });
});
