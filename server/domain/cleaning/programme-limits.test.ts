import { expect, test } from "vitest";
import { STARTING_SETTINGS } from "../register/policy.ts";
import type { ProgrammeFacts } from "./machine.ts";
import { checkProgramme, limitsFrom } from "./programme-limits.ts";

const limits = limitsFrom(STARTING_SETTINGS);
const washer = { what: "washer-extractor", drumDiameterMm: 762 } as const;
const everyday: ProgrammeFacts = {
  name: "Shells",
  how: "advanced cleaning",
  temperature: { degrees: 105, scale: "F" },
  detergentPhTenths: 105,
  extractionRpm: 484,
};

test("the limits start with 105 °F, 40 °C, pH 6.0 to 10.5 and 100 G (facts.md 1.5, 2014/2020 family)", () => {
  expect(limits).toEqual({ degreesF: 105, degreesC: 40, leastPhTenths: 60, mostPhTenths: 105, mostG: 100 });
});

test("a programme at every limit is within them", () => {
  expect(checkProgramme(washer, everyday, limits)).toMatchObject({ over: [], unknown: [] });
});

test("each limit that is passed is told, all at once", () => {
  const hot = {
    ...everyday,
    temperature: { degrees: 106, scale: "F" },
    detergentPhTenths: 106,
    extractionRpm: 485,
  } as const;
  expect(checkProgramme(washer, hot, limits).over).toEqual([
    { what: "temperature", is: "106 °F", limit: "105 °F" },
    { what: "detergent pH", is: "pH 10.6", limit: "pH 6.0 to 10.5" },
    { what: "extraction", is: "100.1 G", limit: "100 G" },
  ]);
});

test("degrees Celsius are compared with 40 and Fahrenheit with 105: the two figures are rounded, not equal (facts.md 6.2)", () => {
  const at = (degrees: number) =>
    checkProgramme(washer, { ...everyday, temperature: { degrees, scale: "C" } }, limits).over.length;
  expect([at(40), at(41)]).toEqual([0, 1]);
});

test("too acid a detergent is over the limits as too alkaline a one is", () => {
  expect(checkProgramme(washer, { ...everyday, detergentPhTenths: 59 }, limits).over).toMatchObject([
    { is: "pH 5.9" },
  ]);
});

test("what is not on record is not compared, and is said", () => {
  const { detergentPhTenths: _, temperature: __, ...bare } = everyday;
  expect(checkProgramme({ what: "washer-extractor" }, bare, limits)).toEqual({
    over: [],
    unknown: ["temperature", "detergent pH", "extraction"],
  });
});

test("a dryer needs no detergent and no drum, and its heat has the same limit", () => {
  const drying = { name: "Warm air", temperature: { degrees: 110, scale: "F" } } as const;
  expect(checkProgramme({ what: "dryer" }, drying, limits)).toEqual({
    over: [{ what: "temperature", is: "110 °F", limit: "105 °F" }],
    unknown: [],
  });
});
