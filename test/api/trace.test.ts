import { beforeAll, describe, expect, test } from "vitest";
import { movePiecesAct, recordCleaningAct, recordFoundAct } from "../../server/cases/bench-acts.ts";
import { correctMoveAct } from "../../server/cases/correct-acts.ts";
import { openEventAct, ruleContaminantAct } from "../../server/cases/event-acts.ts";
import { listTraces, previewTrace, readKeptTrace } from "../../server/cases/kept-traces.ts";
import { endLoadAct, startLoadAct } from "../../server/cases/load-acts.ts";
import { wipePlaceAct } from "../../server/cases/machine-acts.ts";
import { namePlaceAct, registerPiecesAct } from "../../server/cases/register-acts.ts";
import {
  closeTraceAct,
  keepTraceAct,
  recordOutcomeAct,
  reopenTraceAct,
  traceAnewAct,
} from "../../server/cases/trace-acts.ts";
import { verifyLedger } from "../../server/cases/verify.ts";
import { STARTING_CONTAMINANTS } from "../../server/domain/contamination/starting-contaminants.ts";
import type { EventId, LoadId, PieceId, PlaceId, Uuid } from "../../server/domain/ids.ts";
import type { Instant } from "../../server/domain/time.ts";
import type { TraceAsked, TraceFrom } from "../../server/domain/tracing/kept-trace.ts";
import type { TraceView } from "../../server/domain/tracing/trace-view.ts";
import { actor, aDraft, anId } from "../kit/acting.ts";
import { aWasher } from "../kit/machines.ts";
import { openDepartment, scanned } from "../kit/small-department.ts";
import { useTestDatabase } from "../kit/test-database.ts";

const database = useTestDatabase();
const tobin = actor(() => database.app, "technician", "2026-03-02T09:00:00Z");
const odile = actor(() => database.app, "program manager", "2026-03-02T09:00:00Z");
beforeAll(async () => {
  await openDepartment(() => database.app);
});

const on = (day: number, time: string) => `2026-04-${String(day).padStart(2, "0")}T${time}:00Z`;
const ms = (day: number, time: string) => Date.parse(on(day, time)) as Instant;
const NOW = Date.parse("2026-06-01T00:00:00Z");

let places = 0;
async function aPlace(carries: "closed" | "shared" | "apart"): Promise<PlaceId> {
  const id = anId<PlaceId>();
  places += 1;
  await odile.must(namePlaceAct, { id, name: `${carries} ${places}`, what: "rack", carries });
  return id;
}
async function register(kind: string, place: PlaceId, at = on(1, "06:00")): Promise<PieceId> {
  const draft = aDraft(kind, place, { linerCode: "LK-2" });
  await odile.must(registerPiecesAct, { pieces: [draft], evidence: "typed" }, at);
  return draft.id;
}
const move = (piece: PieceId, to: PlaceId, at: string) =>
  tobin.must(
    movePiecesAct,
    { pieces: scanned(piece), to: { kind: "place", id: to }, purpose: "transfer" },
    at,
  );
const asking = (start: TraceFrom, more: Partial<TraceAsked> = {}): TraceAsked => ({
  ...{ start, direction: "forward", hops: 2, carriers: ["closed", "shared"] },
  ...more,
});
async function preview(start: TraceFrom, more: Partial<TraceAsked> = {}): Promise<TraceView> {
  const view = await previewTrace(database.app, asking(start, more), NOW);
  if (!view) throw new Error("nothing to trace");
  return view;
}
const told = ({ contacts }: TraceView) =>
  contacts.map(({ piece, hops, firstMoment }) => [piece, hops, firstMoment]);
const iso = (text: string) => new Date(text).toISOString();

/** A bag with a root and another piece in it, which then lies on a rack with a third, which lies with a fourth. */
async function chain() {
  const [bag, rack, bench, peg] = [
    await aPlace("closed"),
    await aPlace("shared"),
    await aPlace("shared"),
    await aPlace("apart"),
  ];
  const [root, liner, hood, helmet, boots] = [
    await register("coat-shell", peg),
    await register("coat-liner", peg),
    await register("hood", rack),
    await register("helmet", bench),
    await register("boot-pair", peg),
  ];
  await move(root, bag, on(2, "08:00"));
  await move(liner, bag, on(2, "09:00"));
  await move(liner, rack, on(3, "09:00"));
  await move(hood, bench, on(4, "09:00"));
  return { bag, rack, bench, peg, root, liner, hood, helmet, boots };
}

describe("a trace of the record", () => {
  test("finds what a piece may have reached, by steps, and what it may come from", async () => {
    const { root, liner, hood, helmet } = await chain();
    const start = { kind: "pieces" as const, pieces: [root], at: ms(2, "08:00") };
    expect(told(await preview(start))).toEqual([
      [liner, 1, iso(on(2, "09:00"))],
      [hood, 2, iso(on(3, "09:00"))],
    ]);
    expect(told(await preview(start, { hops: 3 }))).toHaveLength(3);
    const back = await preview(
      { kind: "pieces", pieces: [helmet], at: ms(6, "09:00") },
      { direction: "backward", hops: 3 },
    );
    expect(told(back)).toEqual([
      [hood, 1, iso(on(6, "09:00"))],
      [liner, 2, iso(on(4, "09:00"))],
      [root, 3, iso(on(3, "09:00"))],
    ]);
  });

  test("tells path, entries, shared time, where it is now, and what was not followed", async () => {
    const { bag, rack, bench, peg, root, liner, hood } = await chain();
    const view = await preview({ kind: "pieces", pieces: [root], at: ms(2, "08:00") });
    const [first, second] = view.contacts;
    expect(first?.path.legs).toEqual([
      {
        ...{ from: root, to: liner, via: `place:${bag}`, at: iso(on(2, "09:00")), sharedMs: 24 * 3_600_000 },
        entries: [
          { subject: root, version: 2 },
          { subject: liner, version: 2 },
        ],
        isPresumed: false,
      },
    ]);
    expect(second?.path.legs.map(({ via }) => via)).toEqual([`place:${bag}`, `place:${rack}`]);
    expect(second?.nowWith).toMatchObject({ kind: "place", id: bench });
    expect(view.threads.map(({ piece, isRoot }) => [piece, isRoot])).toEqual([
      [root, true],
      [liner, false],
      [hood, false],
    ]);
    expect(view.threads[1]?.stays.map(({ lane, state }) => [lane, state])).toEqual([
      [`place:${peg}`, "not reached"],
      [`place:${bag}`, "possibly reached"],
      [`place:${rack}`, "possibly reached"],
    ]);
    expect(view.lanes.find(({ id }) => id === `place:${peg}`)).toMatchObject({
      carries: "apart",
      isFollowed: false,
    });
  });

  test("a load is closed while it runs, and the washer between loads keeps apart; who was washed stays on the list", async () => {
    const { machine, place } = await aWasher(odile, { name: "Washer 7" });
    const [rack, other] = [await aPlace("shared"), await aPlace("shared")];
    const [one, two, later] = [
      await register("coat-shell", rack),
      await register("coat-shell", other),
      await register("coat-shell", await aPlace("apart")),
    ];
    const load = anId<LoadId>();
    await tobin.must(startLoadAct, { load, machine, pieces: scanned(one, two) }, on(5, "08:00"));
    await tobin.must(endLoadAct, { load, outcome: "as programmed" }, on(5, "09:00"));
    await move(later, place, on(5, "10:00"));
    const view = await preview({ kind: "pieces", pieces: [one], at: ms(5, "07:00") });
    expect(told(view)).toEqual([[two, 1, iso(on(5, "08:00"))]]);
    expect(view.contacts[0]?.path.legs[0]?.via).toBe(`load:${load}`);
    expect(view.contacts[0]).toMatchObject({
      carries: "closed",
      washedSince: { at: iso(on(5, "09:00")), how: "advanced cleaning", isAccepted: false },
    });
    expect(view.lanes.find(({ id }) => id === `load:${load}`)).toMatchObject({ within: `place:${place}` });
    expect(told(await preview({ kind: "load", load }))).toEqual([]);
    const ofMachine = await preview({ kind: "machine", machine, from: ms(5, "00:00"), to: ms(6, "00:00") });
    expect(new Set(ofMachine.roots)).toEqual(new Set([one, two]));
  });

  test("an event starts from what met, and a cleaning that its policy accepts ends what a piece carries on", async () => {
    const rule = STARTING_CONTAMINANTS.find(({ code }) => code === "fire-products");
    if (!rule) throw new Error("no rule for fire products");
    const endedBy = { says: ["advanced cleaning" as const], source: "SOP 12", confirmed: true };
    await odile.must(ruleContaminantAct, { rule: { ...rule, endedBy } });
    const [rack, far] = [await aPlace("shared"), await aPlace("shared")];
    const [met, near, beyond] = [
      await register("hood", rack),
      await register("hood", rack),
      await register("hood", far),
    ];
    const event = anId<EventId>();
    await tobin.must(
      openEventAct,
      {
        id: event,
        event: {
          name: "the Mill Street fire",
          from: ms(7, "02:00"),
          to: ms(7, "04:00"),
          kinds: ["fire-products"],
        },
        members: [],
        pieces: [{ piece: met, evidence: "scanned" }],
      },
      on(7, "05:00"),
    );
    await tobin.must(recordCleaningAct, { pieces: scanned(near), how: "advanced cleaning" }, on(8, "08:00"));
    await tobin.must(wipePlaceAct, { place: rack, evidence: "scanned" }, on(8, "07:00"));
    const before = await preview({ kind: "event", event });
    expect(before.startName).toBe("the Mill Street fire");
    // The rack was wiped while both lay on it: what met the fire carries on into what came after.
    await move(near, far, on(9, "08:00"));
    expect(told(await preview({ kind: "event", event }))).toEqual([
      [near, 1, iso(on(7, "02:00"))],
      [beyond, 2, iso(on(9, "08:00"))],
    ]);
    await tobin.must(recordCleaningAct, { pieces: scanned(met), how: "advanced cleaning" }, on(8, "06:30"));
    const after = await preview({ kind: "event", event });
    // Cleaned on the rack that it had itself carried over the wiping: reached again, a step further on than is looked.
    expect(told(after)).toEqual([[near, 1, iso(on(7, "02:00"))]]);
    expect(after.contacts[0]?.washedSince).toMatchObject({ at: iso(on(8, "08:00")), isAccepted: true });
  });

  test("time for which nobody recorded who had a piece is told as what cannot be excluded", async () => {
    const { root, liner, bench } = await chain();
    await tobin.must(
      recordFoundAct,
      { pieces: scanned(liner), holder: { kind: "place", id: bench } },
      on(9, "09:00"),
    );
    const view = await preview({ kind: "pieces", pieces: [root], at: ms(2, "08:00") });
    expect(view.cannotExclude).toMatchObject([
      { piece: liner, from: iso(on(3, "09:00")), to: iso(on(9, "09:00")), why: "whereabouts unknown" },
    ]);
  });

  test("a start of which nothing is on record is told", async () => {
    const start = { kind: "pieces" as const, pieces: [anId<PieceId>()], at: ms(2, "08:00") };
    expect(await previewTrace(database.app, asking(start), NOW)).toBeUndefined();
    const command = { id: anId<Uuid>(), name: "nothing", isDrill: false, asked: asking(start) };
    expect(await tobin.refusalsOf(keepTraceAct, command)).toEqual(["nothing-to-trace"]);
  });
});

describe("a kept trace", () => {
  async function keep(root: PieceId, isDrill = false): Promise<Uuid> {
    const id = anId<Uuid>();
    const start = { kind: "pieces" as const, pieces: [root], at: ms(2, "08:00") };
    const command = { id, name: "a coat shell", isDrill, asked: asking(start) };
    await tobin.must(keepTraceAct, command, on(20, "09:00"));
    return id;
  }
  async function read(id: Uuid): Promise<TraceView> {
    const view = await readKeptTrace(database.app, id, NOW);
    if (!view?.kept) throw new Error("not kept");
    return view;
  }

  test("a stay recorded three days late changes its answer, and it says so", async () => {
    const { root, bag, peg, boots } = await chain();
    const id = await keep(root);
    expect((await read(id)).kept).toMatchObject({ changedSince: [], status: "open" });
    const elsewhere = await aPlace("apart");
    await move(await register("hood", elsewhere), elsewhere, on(20, "10:00"));
    expect((await read(id)).kept?.changedSince).toEqual([]);
    // Said on the 23rd: the boots lay in the bag for an hour on the 2nd.
    await tobin.must(
      movePiecesAct,
      { pieces: scanned(boots), to: { kind: "place", id: bag }, purpose: "transfer", thereAndBack: false },
      on(2, "10:00"),
    );
    const { kept, contacts } = await read(id);
    expect(kept?.changedSince).toMatchObject([
      { subject: boots, at: iso(on(2, "10:00")), command: "movePieces" },
    ]);
    expect(kept?.anew?.added).toMatchObject([{ id: boots }]);
    expect(kept?.anew?.gone).toEqual([]);
    expect(contacts.some(({ piece }) => piece === boots)).toBe(true);
    await tobin.must(traceAnewAct, { trace: id }, on(23, "09:00"));
    expect((await read(id)).kept?.changedSince).toEqual([]);
    // Taken back: it was another pair.
    const [entry] = await database.app
      .selectFrom("stay")
      .select("from_version")
      .where("piece", "=", boots)
      .where("holder", "=", bag)
      .execute();
    await odile.must(
      correctMoveAct,
      { piece: boots, version: entry?.from_version ?? 0, void: true, note: "another pair" },
      on(24, "09:00"),
    );
    expect((await read(id)).kept?.anew).toMatchObject({ added: [], gone: [{ id: boots }] });
    expect(peg).toBeDefined();
  });

  test("it is worked until each piece has an outcome; not found is the program manager's, and ends with the next sighting", async () => {
    const { root, liner, hood } = await chain();
    const id = await keep(root);
    const outcome = (piece: PieceId, word: "found" | "cleared" | "not found", reason?: string) => ({
      ...{ trace: id, pieces: scanned(piece), outcome: word },
      ...(reason ? { reason } : {}),
    });
    expect(await tobin.refusalsOf(recordOutcomeAct, outcome(root, "found"))).toEqual(["not-on-the-list"]);
    expect(await tobin.refusalsOf(recordOutcomeAct, outcome(liner, "cleared"))).toEqual(["reason-needed"]);
    expect(await tobin.refusalsOf(recordOutcomeAct, outcome(liner, "not found", "searched"))).toEqual([
      "role",
    ]);
    await tobin.must(recordOutcomeAct, outcome(liner, "found"), on(21, "09:00"));
    expect(await odile.refusalsOf(closeTraceAct, { trace: id })).toEqual(["without-outcome"]);
    await odile.must(recordOutcomeAct, outcome(hood, "not found", "searched Station 4"), on(21, "10:00"));
    await odile.must(closeTraceAct, { trace: id }, on(21, "11:00"));
    const closed = await read(id);
    expect(closed.kept?.status).toBe("closed");
    expect(closed.contacts.map((contact) => contact.outcome)).toMatchObject([
      { outcome: "found", evidence: "scanned" },
      { outcome: "not found", reason: "searched Station 4" },
    ]);
    await move(hood, await aPlace("shared"), on(22, "09:00"));
    const again = await read(id);
    expect(again.kept?.status).toBe("open");
    expect(again.contacts[1]?.outcome).toMatchObject({ seenSince: iso(on(22, "09:00")) });
    await odile.must(reopenTraceAct, { trace: id }, on(22, "10:00"));
    expect(await odile.refusalsOf(closeTraceAct, { trace: id })).toEqual(["without-outcome"]);
  });

  test("a drill is told apart, tells its times and its share found, and places no holds", async () => {
    const { root, liner } = await chain();
    const id = await keep(root, true);
    await tobin.must(
      recordOutcomeAct,
      { trace: id, pieces: scanned(liner), outcome: "found" },
      on(20, "09:30"),
    );
    expect((await read(id)).kept).toMatchObject({
      isDrill: true,
      drill: { toLastOutcomeMs: 30 * 60_000, foundShare: 0.5 },
    });
    expect((await listTraces(database.app)).find((one) => one.id === id)).toMatchObject({
      isDrill: true,
      settled: 1,
    });
    const holds = await database.app
      .selectFrom("hold")
      .selectAll()
      .where("piece", "in", [root, liner])
      .execute();
    expect(holds).toEqual([]);
  });

  test("everything that is kept of traces follows from the ledger", async () => {
    const { findings } = await verifyLedger(database.app, { seals: [], onProgress: () => {} });
    expect(findings).toEqual([]);
  });
});
