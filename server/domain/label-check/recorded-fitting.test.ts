import { expect, test } from "vitest";
import type { PieceId } from "../ids.ts";
import { compareWithRecord } from "./recorded-fitting.ts";

const SHELL = "0198a000-0000-7000-8000-000000000001" as PieceId;
const LINER = "0198a000-0000-7000-8000-000000000002" as PieceId;
const OWN = "0198a000-0000-7000-8000-000000000003" as PieceId;
const BESIDE = "0198a000-0000-7000-8000-000000000004" as PieceId;
const question = { shell: SHELL, layer: LINER };

test("the liner on the bench is not the one recorded in this shell, and where that one is", () => {
  const notes = compareWithRecord({ ...question, fittedNow: { pieceId: OWN, where: "Rack C1" } });
  expect(notes).toEqual([{ code: "another-recorded", layer: OWN, where: "Rack C1" }]);
});

test("both at once: this shell has another liner on record, and this liner another shell", () => {
  const notes = compareWithRecord({
    ...question,
    fittedNow: { pieceId: OWN, where: "Rack C1" },
    layerFittedIn: { pieceId: BESIDE, where: "Station 2" },
  });
  expect(notes.map(({ code }) => code)).toEqual(["another-recorded", "recorded-in-another-shell"]);
});

test("after a wash nothing is fitted: the layer that was in last is told from another", () => {
  expect(compareWithRecord({ ...question, fittedLast: { pieceId: LINER, where: "" } })).toEqual([
    { code: "last-worn-here" },
  ]);
  const other = compareWithRecord({ ...question, fittedLast: { pieceId: OWN, where: "Provider" } });
  expect(other).toEqual([{ code: "another-last-here", layer: OWN, where: "Provider" }]);
});

test("the recorded liner in its recorded shell gives no second note", () => {
  const notes = compareWithRecord({
    ...question,
    fittedNow: { pieceId: LINER, where: "" },
    layerFittedIn: { pieceId: SHELL, where: "" },
  });
  expect(notes).toEqual([{ code: "recorded-here" }]);
});

test("without any record nothing is said", () => {
  expect(compareWithRecord(question)).toEqual([]);
});
