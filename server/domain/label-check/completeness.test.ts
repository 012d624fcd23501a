import { expect, test } from "vitest";
import { missingLayers } from "./completeness.ts";

const LINER = { layerKind: "coat-liner", orTogether: ["coat-thermal", "coat-moisture"] };
const DRD = { layerKind: "drd" };

test("routine inspection sheet (facts.md S5): a coat is complete with shell, liner and DRD", () => {
  expect(missingLayers([LINER, DRD], ["drd", "coat-liner"])).toEqual([]);
  expect(missingLayers([LINER, DRD], ["coat-liner"])).toEqual([DRD]);
  expect(missingLayers([LINER, DRD], [])).toEqual([LINER, DRD]);
});

test("a thermal and a moisture layer together stand in for a liner, one of them does not", () => {
  expect(missingLayers([LINER], ["coat-thermal", "coat-moisture"])).toEqual([]);
  expect(missingLayers([LINER], ["coat-thermal"])).toEqual([LINER]);
});

test("a winter liner beyond the needs is no fault and stands in for nothing", () => {
  expect(missingLayers([LINER], ["coat-liner", "winter-liner"])).toEqual([]);
  expect(missingLayers([LINER], ["winter-liner"])).toEqual([LINER]);
});

test("one layer meets one need only", () => {
  expect(missingLayers([DRD, DRD], ["drd"])).toEqual([DRD]);
});

test("a wildland coat of one layer needs nothing", () => {
  expect(missingLayers([], [])).toEqual([]);
});
