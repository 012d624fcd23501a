import { describe, expect, test } from "vitest";
import type { ProgrammeFacts } from "../../../server/domain/cleaning/machine.ts";
import { draftOf, NEW_PROGRAMME, readDiameter, readProgramme, readTemperature } from "./machine-draft.ts";

describe("figures of a machine", () => {
  test("a temperature is read with its scale, and without one it is none", () => {
    expect(["105 F", "105°f", "40 C", "40", "hot"].map(readTemperature)).toEqual([
      { degrees: 105, scale: "F" },
      { degrees: 105, scale: "F" },
      { degrees: 40, scale: "C" },
      undefined,
      undefined,
    ]);
  });

  test("a drum is read in inches or millimetres, and without a unit it is none", () => {
    expect(["30 in", "762 mm", "26 inches", "30"].map(readDiameter)).toEqual([762, 762, 660, undefined]);
  });

  test("what is left empty of a programme stays unknown, and what cannot be read is told", () => {
    expect(readProgramme({ ...NEW_PROGRAMME, name: "Shells" })).toEqual({
      programme: { name: "Shells", how: "advanced cleaning" },
    });
    expect(readProgramme({ ...NEW_PROGRAMME, ph: "acid", rpm: "0" })).toEqual({
      problems: { name: true, ph: true, rpm: true },
    });
  });

  test("a programme that is written out and read again is the same", () => {
    const programme: ProgrammeFacts = {
      ...{ name: "Shells", how: "advanced cleaning", temperature: { degrees: 105, scale: "F" } },
      ...{ detergentPhTenths: 105, extractionRpm: 484, minutes: 45 },
    };
    expect(readProgramme(draftOf(programme))).toEqual({ programme });
    expect(readProgramme(draftOf({ name: "Air" }))).toEqual({ programme: { name: "Air" } });
  });
});
