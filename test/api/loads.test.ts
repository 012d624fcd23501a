import { beforeAll, describe, expect, test } from "vitest";
import {
  installLayerAct,
  movePiecesAct,
  placeHoldAct,
  recordCleaningAct,
} from "../../server/cases/bench-acts.ts";
import { takeBackAct } from "../../server/cases/correct-acts.ts";
import { openEventAct } from "../../server/cases/event-acts.ts";
import {
  endLoadAct,
  recordProviderLoadAct,
  rememberLoadAct,
  startLoadAct,
} from "../../server/cases/load-acts.ts";
import { checkMachineAct, wipePlaceAct } from "../../server/cases/machine-acts.ts";
import { machineAtCard } from "../../server/cases/machine-views.ts";
import { nameProviderAct } from "../../server/cases/party-acts.ts";
import { registerPiecesAct } from "../../server/cases/register-acts.ts";
import { describeModelsAct } from "../../server/cases/rule-acts.ts";
import { verifyLedger } from "../../server/cases/verify.ts";
import type { EventId, LoadId, ModelId, PieceId, ProviderId } from "../../server/domain/ids.ts";
import type { Instant } from "../../server/domain/time.ts";
import { actor, aDraft, anId } from "../kit/acting.ts";
import { type AMachine, aDryer, aWasher } from "../kit/machines.ts";
import { type Department, openDepartment, scanned } from "../kit/small-department.ts";
import { useTestDatabase } from "../kit/test-database.ts";

const database = useTestDatabase();
const db = () => database.app;
const rosalind = actor(db, "program manager", "2026-03-02T12:30:00Z");
const tobin = actor(db, "technician", "2026-03-02T12:00:00Z");
let house: Department;
let washer: AMachine;
let count = 1;

const instant = (text: string) => Date.parse(text) as Instant;
const place = (id: AMachine["place"] | Department["rack"]) => ({ kind: "place" as const, id });

async function pieces(...kinds: string[]): Promise<PieceId[]> {
  const drafts = kinds.map((kind) =>
    aDraft(kind, house.rack, kind === "coat-liner" ? { linerCode: "LK-2" } : {}),
  );
  await house.inez.must(registerPiecesAct, { pieces: drafts, evidence: "typed" });
  return drafts.map(({ id }) => id);
}
/** Coat shells that came in soiled. */
async function soiledShells(many: number, at?: string): Promise<PieceId[]> {
  const shells = await pieces(...Array<string>(many).fill("coat-shell"));
  const to = place(house.rack);
  const move = { pieces: scanned(...shells), to, purpose: "turn in" as const, soiled: true };
  await tobin.must(movePiecesAct, move, at);
  return shells;
}
async function start(machine: AMachine, ...of: PieceId[]): Promise<LoadId> {
  const load = anId<LoadId>();
  await tobin.must(startLoadAct, { load, machine: machine.machine, pieces: scanned(...of) });
  return load;
}
const row = (id: PieceId) =>
  db().selectFrom("piece").selectAll().where("id", "=", id).executeTakeFirstOrThrow();
const loadRow = (id: LoadId) => db().selectFrom("load").selectAll().where("id", "=", id).executeTakeFirst();
const refusedStart = (machine: AMachine, of: readonly PieceId[]) =>
  tobin.refusalsOf(startLoadAct, { load: anId<LoadId>(), machine: machine.machine, pieces: scanned(...of) });

beforeAll(async () => {
  house = await openDepartment(db);
});
/** A machine of its own for each test: one load runs in it at a time. */
const another = (facts: Parameters<typeof aWasher>[1] = {}) =>
  aWasher(house.inez, { ...facts, name: `Washer ${count++}` });

describe("a load", () => {
  test("is a stay of its pieces with it in the machine, and at its end each was washed once more", async () => {
    washer = await another();
    const shells = await soiledShells(5);
    const load = await start(washer, ...shells);
    const stays = await db().selectFrom("stay").selectAll().where("load", "=", load).execute();
    expect(stays.map(({ holder, to_at }) => [holder, to_at])).toEqual(shells.map(() => [washer.place, null]));
    expect((await row(shells[0] as PieceId)).soiled).toBe(true);
    await tobin.must(endLoadAct, { load, outcome: "as programmed" });
    for (const shell of shells) {
      expect(await row(shell)).toMatchObject({
        soiled: false,
        soiled_since: null,
        washes: 1,
        holder: washer.place,
      });
    }
    expect(await loadRow(load)).toMatchObject({ outcome: "as programmed", how: "advanced cleaning" });
  });

  test("that was aborted cleaned nothing, and its pieces stay soiled", async () => {
    const [shell] = (await soiledShells(1)) as [PieceId];
    const load = await start(await another(), shell);
    await tobin.must(endLoadAct, { load, outcome: "aborted", note: "the pump stopped" });
    expect(await row(shell)).toMatchObject({ soiled: true, washes: 0 });
    expect(await tobin.refusalsOf(endLoadAct, { load, outcome: "as programmed" })).toEqual(["load-over"]);
  });

  test("is not ended as programmed before half its programme is through: a card read twice ends nothing", async () => {
    const [shell] = (await soiledShells(1)) as [PieceId];
    const load = await start(await another({ programme: { minutes: 45 } }), shell);
    expect(await tobin.refusalsOf(endLoadAct, { load, outcome: "as programmed" })).toEqual(["ended-early"]);
    await tobin.must(endLoadAct, { load, outcome: "aborted" });
  });

  test("is taken back with its end first, and its pieces are where they were, soiled", async () => {
    const [shell] = (await soiledShells(1)) as [PieceId];
    const load = anId<LoadId>();
    const machine = (await another()).machine;
    const started = await tobin.act(startLoadAct, { load, machine, pieces: scanned(shell) });
    const ended = await tobin.act(endLoadAct, { load, outcome: "as programmed" });
    if (!("written" in started) || !("written" in ended)) throw new Error("not written");
    const note = "the wrong card";
    expect(await tobin.refusalsOf(takeBackAct, { act: started.written.id, note })).toEqual(["load-over"]);
    await tobin.must(takeBackAct, { act: ended.written.id, note });
    expect(await row(shell)).toMatchObject({ soiled: true, washes: 0 });
    expect((await loadRow(load))?.ended_at).toBeNull();
    await tobin.must(takeBackAct, { act: started.written.id, note });
    expect(await loadRow(load)).toBeUndefined();
    expect((await row(shell)).holder).toBe(house.rack);
  });

  test("takes what is in the washer over to the dryer: its card proposes the load that was washed last", async () => {
    const [own, dryer] = [await another(), await aDryer(house.inez, { name: `Dryer ${count++}` })];
    const shells = await soiledShells(3);
    const load = await start(own, ...shells);
    const now = instant("2026-03-02T13:00:00Z");
    await tobin.must(endLoadAct, { load, outcome: "as programmed" }, "2026-03-02T12:50:00Z");
    const card = await machineAtCard(db(), dryer.place, now);
    expect(card?.waiting?.pieces.map(({ id }) => id)).toEqual([...shells].sort());
    const drying = anId<LoadId>();
    const over = shells.map((piece) => ({ piece, evidence: "with its set" as const }));
    const command = { load: drying, machine: dryer.machine, pieces: over };
    await tobin.must(startLoadAct, command, "2026-03-02T12:55:00Z");
    const again = await machineAtCard(db(), dryer.place, now);
    expect(again?.waiting?.pieces.map(({ id }) => id)).not.toEqual(expect.arrayContaining(shells));
    expect(await row(shells[0] as PieceId)).toMatchObject({ holder: dryer.place, washes: 1 });
    const next = await soiledShells(1);
    await start(dryer, ...next);
    expect(await loadRow(drying)).toMatchObject({ outcome: "as programmed" });
  });
});

describe("a load is refused, with all reasons at once,", () => {
  test("for layers in their shells, shells with liners, gear kept as evidence and an over-full drum", async () => {
    const full = await another({ mostGarments: 2 });
    const [shell, liner, other, kept] = (await pieces(
      "coat-shell",
      "coat-liner",
      "coat-liner",
      "coat-shell",
    )) as [PieceId, PieceId, PieceId, PieceId];
    await tobin.must(installLayerAct, { shell, layer: liner, evidence: "scanned" });
    await tobin.must(placeHoldAct, { pieces: [kept], hold: "evidence" });
    expect((await refusedStart(full, [shell, other, kept])).sort()).toEqual([
      "held",
      "load-too-large",
      "shells-and-liners",
      "washed-apart",
    ]);
    expect(await refusedStart(full, [liner])).toEqual(["washed-apart"]);
    expect((await row(shell)).holder).toBe(house.rack);
  });

  test("for what the model table lets wash by hand only, as DRDs of some makers are [S37]", async () => {
    const source = { what: "maker's letter" as const };
    const models = [
      { id: anId<ModelId>(), maker: "Brindlewick", name: "D1", kind: "drd", wash: "by hand" as const },
      {
        ...{ id: anId<ModelId>(), maker: "Tarnholt", name: "D2", kind: "drd" },
        wash: "machine, in a mesh bag" as const,
      },
    ].map((model) => ({ ...model, layers: [], takes: [], source }));
    await house.inez.must(describeModelsAct, { models });
    const drafts = ["Brindlewick D1", "Tarnholt D2"].map((name) => {
      const [maker = "", modelName = ""] = name.split(" ");
      return aDraft("drd", house.rack, { maker, modelName });
    });
    await house.inez.must(registerPiecesAct, { pieces: drafts, evidence: "typed" });
    const [byHand, inBag] = drafts.map(({ id }) => id) as [PieceId, PieceId];
    const own = await another();
    expect(await refusedStart(own, [byHand, inBag])).toEqual(["not-so-cleaned"]);
    await start(own, inBag);
    await tobin.must(recordCleaningAct, { pieces: scanned(byHand), how: "advanced cleaning" });
  });

  test("for a programme over the limits, which the program manager starts with a reason", async () => {
    const hot = await another({ programme: { temperature: { degrees: 120, scale: "F" } } });
    const [shell] = (await soiledShells(1)) as [PieceId];
    expect(await refusedStart(hot, [shell])).toEqual(["over-limits"]);
    const command = { load: anId<LoadId>(), machine: hot.machine, pieces: scanned(shell) };
    const reason = "bed bugs, with the maker's consent";
    expect(await tobin.refusalsOf(startLoadAct, { ...command, reason })).toEqual(["role"]);
    await rosalind.must(startLoadAct, { ...command, reason });
    expect((await loadRow(command.load))?.despite).toEqual(["over-limits"]);
  });

  test("by a machine that is running, or that was found faulty and in order by no check since", async () => {
    const own = await another();
    const [one, two] = (await soiledShells(2)) as [PieceId, PieceId];
    const load = await start(own, one);
    expect(await refusedStart(own, [two])).toEqual(["load-running"]);
    await tobin.must(endLoadAct, { load, outcome: "as programmed" });
    await tobin.must(checkMachineAct, { machine: own.machine, outcome: "faulty", note: "no hot water" });
    expect(await refusedStart(own, [two])).toEqual(["machine-faulty"]);
    await tobin.must(checkMachineAct, { machine: own.machine, outcome: "in order" });
    await start(own, two);
  });

  test("for contaminants that go to a specialist, or share no load with what was not there", async () => {
    const own = await another();
    const [asbestos, bloody, other] = (await soiledShells(3)) as [PieceId, PieceId, PieceId];
    const at = { from: instant("2026-03-02T10:00:00Z"), to: instant("2026-03-02T10:30:00Z") };
    const event = (kinds: readonly string[], piece: PieceId) => ({
      ...{ id: anId<EventId>(), members: [] },
      event: { name: `at ${kinds.join()}`, kinds, ...at },
      pieces: [{ piece, evidence: "scanned" as const }],
    });
    await tobin.must(openEventAct, event(["asbestos"], asbestos));
    await tobin.must(openEventAct, event(["blood-or-body-fluid"], bloody));
    const codes = await refusedStart(own, [asbestos, bloody, other]);
    expect(codes).toContain("to-a-specialist");
    expect(new Set(codes).size).toBeGreaterThan(0);
    expect(await refusedStart(own, [asbestos])).toEqual(["to-a-specialist"]);
    await start(own, other);
  });
});

describe("a load that nobody scanned", () => {
  const about = instant("2026-03-02T11:00:00Z");

  test("is written down with the widest time that fits what was said, and the pieces lie where they were left", async () => {
    const own = await another({ programme: { minutes: 45 } });
    const [shell] = (await soiledShells(1, "2026-03-02T09:30:00Z")) as [PieceId];
    await tobin.must(
      rememberLoadAct,
      {
        ...{ load: anId<LoadId>(), machine: own.machine, pieces: scanned(shell), about, minutes: 30 },
        to: place(house.bench),
      },
      "2026-03-02T14:00:00Z",
    );
    const [stay] = await db()
      .selectFrom("stay")
      .selectAll()
      .where("piece", "=", shell)
      .where("load", "is not", null)
      .execute();
    expect([stay?.from_at.toISOString(), stay?.to_at?.toISOString()]).toEqual([
      "2026-03-02T09:45:00.000Z",
      "2026-03-02T11:30:00.000Z",
    ]);
    expect(await row(shell)).toMatchObject({ holder: house.bench, washes: 1 });
  });

  test("is not refused for policy and keeps what would have stopped it, and is refused where the record says otherwise", async () => {
    const own = await another({ programme: { minutes: 45, temperature: { degrees: 120, scale: "F" } } });
    const [shell, moved] = (await soiledShells(2, "2026-03-02T09:30:00Z")) as [PieceId, PieceId];
    const load = anId<LoadId>();
    const command = { machine: own.machine, about, minutes: 10 };
    await tobin.must(rememberLoadAct, { ...command, load, pieces: scanned(shell) }, "2026-03-02T14:00:00Z");
    expect((await loadRow(load))?.despite).toEqual(["over-limits"]);
    const away = { pieces: scanned(moved), to: place(house.bench), purpose: "transfer" as const };
    await tobin.must(movePiecesAct, away, "2026-03-02T10:40:00Z");
    const late = { ...command, load: anId<LoadId>(), pieces: scanned(moved) };
    expect(await tobin.refusalsOf(rememberLoadAct, late, "2026-03-02T14:00:00Z")).toEqual(["moved-between"]);
  });

  test("is told by a provider's manifest, as told by the provider, while the pieces were there", async () => {
    const provider = anId<ProviderId>();
    await rosalind.must(nameProviderAct, { id: provider, name: "Saltmarsh Textile Care" });
    const [shell, home] = (await soiledShells(2)) as [PieceId, PieceId];
    const there = { kind: "provider" as const, id: provider };
    await tobin.must(
      movePiecesAct,
      { pieces: scanned(shell), to: there, purpose: "to provider" },
      "2026-03-02T15:00:00Z",
    );
    const command = {
      ...{ load: anId<LoadId>(), provider, document: "manifest 4471", how: "specialised cleaning" as const },
      ...{ from: instant("2026-03-04T08:00:00Z"), to: instant("2026-03-04T10:00:00Z") },
    };
    const at = "2026-03-06T08:00:00Z";
    expect(
      await tobin.refusalsOf(recordProviderLoadAct, { ...command, pieces: scanned(shell, home) }, at),
    ).toEqual(["not-there"]);
    await tobin.must(recordProviderLoadAct, { ...command, pieces: scanned(shell) }, at);
    expect(await row(shell)).toMatchObject({ washes: 1, soiled: false, holder: provider });
    const stays = await db()
      .selectFrom("stay")
      .select(["load", "evidence"])
      .where("piece", "=", shell)
      .orderBy("n")
      .execute();
    expect(stays.slice(-2)).toEqual([
      { load: command.load, evidence: "told by provider" },
      { load: null, evidence: "told by provider" },
    ]);
  });
});

describe("cleanings of other kinds", () => {
  test("are acts under their own terms: a rinse at the scene, sanitisation and disinfection end no soil and count as no wash", async () => {
    const [shell] = (await soiledShells(1)) as [PieceId];
    for (const how of ["preliminary exposure reduction", "sanitisation", "disinfection"] as const) {
      await tobin.must(recordCleaningAct, { pieces: scanned(shell), how });
    }
    expect(await row(shell)).toMatchObject({ soiled: true, washes: 0 });
  });

  test("a coat is rinsed at the scene as it is worn, and washed by hand in its layers alone", async () => {
    const [shell, liner] = (await pieces("coat-shell", "coat-liner")) as [PieceId, PieceId];
    await tobin.must(installLayerAct, { shell, layer: liner, evidence: "scanned" });
    const rinse = { pieces: scanned(shell), how: "preliminary exposure reduction" as const };
    await tobin.must(recordCleaningAct, rinse);
    for (const piece of [shell, liner]) {
      const wash = { pieces: scanned(piece), how: "advanced cleaning" as const };
      expect(await tobin.refusalsOf(recordCleaningAct, wash)).toEqual(["washed-apart"]);
    }
  });

  test("a bench that was wiped says when", async () => {
    await tobin.must(wipePlaceAct, { place: house.bench, evidence: "scanned" }, "2026-03-02T16:00:00Z");
    const wiped = await db()
      .selectFrom("place_cleaned")
      .select("cleaned_at")
      .where("place", "=", house.bench)
      .execute();
    expect(wiped.map(({ cleaned_at }) => cleaned_at.toISOString())).toEqual(["2026-03-02T16:00:00.000Z"]);
  });
});

test("wet gear is on its way to dry until it is moved on, and pockets that were gone through say so", async () => {
  const [shell] = (await pieces("coat-shell")) as [PieceId];
  const wet = {
    to: place(house.rack),
    purpose: "turn in" as const,
    wet: true as const,
    pockets: "checked" as const,
  };
  await tobin.must(movePiecesAct, { pieces: scanned(shell), ...wet });
  expect((await row(shell)).wet).toBe(true);
  await tobin.must(movePiecesAct, { pieces: scanned(shell), to: place(house.bench), purpose: "transfer" });
  expect((await row(shell)).wet).toBe(false);
});

test("the ledger of all this verifies", async () => {
  expect((await verifyLedger(db())).findings).toEqual([]);
});
