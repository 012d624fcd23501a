import { beforeAll, describe, expect, test } from "vitest";
import { recordCleaningAct, recordFoundAct } from "../../server/cases/bench-acts.ts";
import { openEventAct, ruleContaminantAct } from "../../server/cases/event-acts.ts";
import { previewTrace } from "../../server/cases/kept-traces.ts";
import { endLoadAct, startLoadAct } from "../../server/cases/load-acts.ts";
import { wipePlaceAct } from "../../server/cases/machine-acts.ts";
import { keepTraceAct } from "../../server/cases/trace-acts.ts";
import { STARTING_CONTAMINANTS } from "../../server/domain/contamination/starting-contaminants.ts";
import type { EventId, LoadId, PieceId, Uuid } from "../../server/domain/ids.ts";
import type { TraceAsked, TraceFrom } from "../../server/domain/tracing/kept-trace.ts";
import type { TraceView } from "../../server/domain/tracing/trace-view.ts";
import { anId } from "../kit/acting.ts";
import { aWasher } from "../kit/machines.ts";
import { openDepartment, scanned } from "../kit/small-department.ts";
import { useTestDatabase } from "../kit/test-database.ts";
import { asking, iso, ms, NOW, on, told, tracedGear } from "../kit/traced-gear.ts";

const database = useTestDatabase();
const { tobin, odile, aPlace, register, move, chain } = tracedGear(() => database.app);
beforeAll(async () => {
  await openDepartment(() => database.app);
});

async function preview(start: TraceFrom, more: Partial<TraceAsked> = {}): Promise<TraceView> {
  const view = await previewTrace(database.app, asking(start, more), NOW);
  if (!view) throw new Error("nothing to trace");
  return view;
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
