import { describe, expect, it } from "vitest";
import { STARTING_SETTINGS } from "../../../server/domain/register/policy.ts";
import { changedSettings, settingProblems } from "./setting-draft.ts";

const before = { ...STARTING_SETTINGS, "department name": "Harrow County Fire & Rescue" };

describe("the department's settings", () => {
  it("are written as far as they changed, and not at all when none did", () => {
    expect(changedSettings(before, before)).toEqual({});
    expect(changedSettings(before, { ...before, "department code": " HCFR " })).toEqual({
      "department code": "HCFR",
    });
  });

  it("take a time zone by its name, and no other text", () => {
    expect(settingProblems(before, { ...before, "time zone": "America/New_York" })).toEqual({});
    for (const zone of ["Harrow", "", "New York"]) {
      expect(Object.keys(settingProblems(before, { ...before, "time zone": zone }))).toEqual(["time zone"]);
    }
  });

  it("take a limit of washing as a figure in its range, and nothing else", () => {
    expect(settingProblems(before, { ...before, "detergent pH, most": "9.5" })).toEqual({});
    for (const figure of ["", "ten", "15", "9.55"]) {
      const problems = settingProblems(before, { ...before, "detergent pH, most": figure });
      expect(Object.keys(problems)).toEqual(["detergent pH, most"]);
    }
  });

  it("once set are changed and not emptied, and a code never set may stay empty", () => {
    expect(Object.keys(settingProblems(before, { ...before, "department name": " " }))).toEqual([
      "department name",
    ]);
    expect(settingProblems(before, before)).toEqual({});
  });
});
