import { describe, expect, test } from "vitest";
import { minute } from "../../../test/kit/builders/piece-entries.ts";
import type { LoadId, MachineId, PlaceId } from "../ids.ts";
import { foldLoad, type LoadEntry } from "./load.ts";
import { foldMachine, type MachineEntry } from "./machine.ts";
import { takeBackLoadEntries } from "./take-back-load.ts";

const id = "load" as LoadId;
const machine = "machine" as MachineId;
const started: LoadEntry = {
  ...{ kind: "LoadStarted", at: minute(0), evidence: "scanned", how: "advanced cleaning" },
  ran: { in: "machine", machine, place: "place" as PlaceId },
};
const ended: LoadEntry = { kind: "LoadEnded", at: minute(45), evidence: "scanned", outcome: "as programmed" };
const takenBack = (takesBack: number): LoadEntry => ({
  kind: "LoadEntryTakenBack",
  at: minute(50),
  takesBack,
});
const recorded = (...entries: readonly LoadEntry[]) =>
  entries.map((entry, index) => ({ version: index + 1, entry }));

describe("a load", () => {
  test("runs from its start to its end, and while it runs it has no end", () => {
    expect(foldLoad(id, recorded(started))).toMatchObject({ startedAt: minute(0), how: "advanced cleaning" });
    expect(foldLoad(id, recorded(started))?.endedAt).toBeUndefined();
    expect(foldLoad(id, recorded(started, ended))).toMatchObject({
      endedAt: minute(45),
      outcome: "as programmed",
    });
  });

  test("whose end was taken back runs on, and is ended anew by a later entry", () => {
    const again: LoadEntry = { ...ended, at: minute(60), outcome: "aborted" };
    expect(foldLoad(id, recorded(started, ended, takenBack(2)))?.endedAt).toBeUndefined();
    expect(foldLoad(id, recorded(started, ended, takenBack(2), again))).toMatchObject({
      ...{ endedAt: minute(60), outcome: "aborted", version: 4 },
    });
  });

  test("whose start was taken back never was", () => {
    expect(foldLoad(id, recorded(started, takenBack(1)))).toBeUndefined();
  });

  test("is taken back end first, and nothing twice", () => {
    const codes = (entries: ReturnType<typeof recorded>, ...versions: number[]) => {
      const decided = takeBackLoadEntries(id, entries, versions, minute(50));
      return "refusals" in decided ? decided.refusals.map(({ code }) => code) : decided.entries.length;
    };
    expect(codes(recorded(started, ended), 1)).toEqual(["load-over"]);
    expect(codes(recorded(started, ended), 2)).toBe(1);
    expect(codes(recorded(started, ended), 1, 2)).toBe(2);
    expect(codes(recorded(started, ended, takenBack(2)), 2)).toEqual(["cannot-correct"]);
  });
});

describe("a machine", () => {
  const facts = { name: "Washer 1", what: "washer-extractor", place: "place" as PlaceId } as const;
  const told = (...entries: readonly MachineEntry[]) =>
    entries.map((entry, index) => ({ version: index + 1, entry }));
  const described: MachineEntry = { kind: "MachineDescribed", machine: facts };
  const programme = (name: string, usual: boolean): MachineEntry => ({
    ...{ kind: "ProgrammeDescribed", id: name as never, programme: { name }, usual },
  });
  const usualOf = (...entries: readonly MachineEntry[]) =>
    foldMachine(machine, told(described, ...entries))?.programmes.flatMap(({ name, usual }) =>
      usual ? [name] : [],
    );

  test("has the programme that was made usual last as its only usual one", () => {
    expect(usualOf(programme("a", true), programme("b", true))).toEqual(["b"]);
    expect(usualOf(programme("a", true), programme("a", false))).toEqual([]);
    expect(usualOf(programme("a", true), { kind: "ProgrammeEnded", id: "a" as never })).toEqual([]);
  });

  test("tells its checks in the order of their times, however late they were written down", () => {
    const check = (at: number, outcome: "in order" | "faulty"): MachineEntry => ({
      ...{ kind: "MachineChecked", at: minute(at), outcome },
    });
    const folded = foldMachine(machine, told(described, check(60, "in order"), check(10, "faulty")));
    expect(folded?.checks.map(({ at, outcome }) => [at, outcome])).toEqual([
      [minute(10), "faulty"],
      [minute(60), "in order"],
    ]);
  });

  test("that was closed is open again once it is described anew, and nothing before it is described", () => {
    expect(foldMachine(machine, told({ kind: "MachineClosed" }))).toBeUndefined();
    const closed: MachineEntry = { kind: "MachineClosed" };
    expect(foldMachine(machine, told(described, closed))?.closed).toBe(true);
    expect(foldMachine(machine, told(described, closed, described))?.closed).toBe(false);
  });
});
