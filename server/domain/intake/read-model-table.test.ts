import { expect, test } from "vitest";
import type { ModelId, Uuid } from "../ids.ts";
import type { ModelFacts } from "../register/model.ts";
import { STANDARD_KINDS } from "../register/standard-kinds.ts";
import type { LocalDate } from "../time.ts";
import { MODEL_COLUMNS, type ModelField } from "./columns.ts";
import { mapColumns } from "./map-columns.ts";
import { readModelTable } from "./read-model-table.ts";
import { indexRegister } from "./register-index.ts";
import { layOutModels } from "./write-model-table.ts";

const TODAY = "2025-11-20" as LocalDate;
const OLD = "0198a000-0000-7000-8000-000000000001" as ModelId;
const register = indexRegister({
  kinds: STANDARD_KINDS,
  places: [],
  members: [],
  providers: [],
  models: [{ id: OLD, maker: "Tarnholt", name: "Strap D", kind: "drd" }],
});
const FIELDS = MODEL_COLUMNS.map(({ field }) => field);
const HEADERS = MODEL_COLUMNS.map(({ header }) => header);
const { mapping } = mapColumns(HEADERS, MODEL_COLUMNS);

type Cells = { readonly [Each in ModelField]?: string };
function readCells(rows: readonly (readonly string[])[]) {
  const file = rows.map((cells, at) => ({ row: at + 2, cells }));
  return readModelTable(file, HEADERS.length, mapping, register, TODAY);
}
function read(...rows: readonly Cells[]) {
  return readCells(rows.map((cells) => FIELDS.map((field) => cells[field] ?? "")));
}
const RIDGE: Cells = {
  maker: "Tarnholt",
  name: "Ridge 40",
  kind: "Coat shell",
  layers: "coat liner + DRD",
  wash: "machine",
  source: "Maker’s letter",
  sourceOn: "2024-02-01",
};

test("rows of one model make one draft with all that it takes", () => {
  const { accepted, parked } = read(
    { ...RIDGE, takesKind: "coat liner", takesCode: "LK-2" },
    { ...RIDGE, name: "RIDGE 40", takesKind: "DRD", takesModel: "strap d" },
  );
  expect(parked).toEqual([]);
  expect(accepted).toHaveLength(1);
  expect(accepted[0]?.draft).toEqual({
    maker: "Tarnholt",
    name: "Ridge 40",
    kind: "coat-shell",
    layers: ["coat-liner", "drd"],
    wash: "machine",
    source: { what: "maker's letter", on: "2024-02-01" },
    takes: [
      { layerKind: "coat-liner", takesLinerCode: "LK-2" },
      { layerKind: "drd", takesModel: { maker: "Tarnholt", name: "strap d" } },
    ],
  });
});

test("a model that the file itself brings in may be taken, wherever its row stands", () => {
  const liner = { maker: "Fenwark", name: "Inner 2", kind: "coat liner" };
  const { accepted } = read(
    { ...RIDGE, takesKind: "coat liner", takesModel: "Inner 2", takesMaker: "Fenwark" },
    liner,
  );
  expect(accepted).toHaveLength(2);
});

test("one faulty row parks its whole model and whatever takes that model; other models come in", () => {
  const { accepted, parked } = read(
    { ...RIDGE, takesKind: "coat liner", takesModel: "Inner 2" },
    { ...RIDGE, takesKind: "DRD", takesModel: "Strap D" },
    { maker: "Tarnholt", name: "Inner 2", kind: "coat liner", wash: "boil" },
    { maker: "Tarnholt", name: "Crag", kind: "hood" },
  );
  expect(accepted.map(({ draft }) => draft.name)).toEqual(["Crag"]);
  expect(parked.map(({ row, problems }) => [row, problems[0]?.problem.code])).toEqual([
    [2, "not-in-register"],
    [3, "with-parked-row"],
    [4, "not-a-choice"],
  ]);
});

test("a row whose kind cannot be read parks the other rows of that model too", () => {
  const { accepted, parked } = read(
    { ...RIDGE, takesKind: "DRD", takesModel: "Strap D" },
    { ...RIDGE, kind: "coat" },
  );
  expect([accepted.length, parked.length]).toEqual([0, 2]);
});

test.each<[string, Cells, object]>([
  [
    "a layer kind without model or code",
    { takesKind: "DRD" },
    { code: "takes-incomplete", field: "takesCode" },
  ],
  ["a code without its layer kind", { takesCode: "LK-2" }, { code: "takes-incomplete", field: "takesKind" }],
  [
    "a model that nobody knows",
    { takesKind: "DRD", takesModel: "Loop" },
    { code: "not-in-register", what: "model" },
  ],
  [
    "an unknown layer",
    { layers: "coat liner + sail" },
    { code: "kind-unknown", field: "layers", value: "sail" },
  ],
])("%s is parked", (_what, cells, problem) => {
  expect(read({ ...RIDGE, ...cells }).parked[0]?.problems[0]?.problem).toMatchObject(problem);
});

test("rows of one model that disagree are parked, with both values and the row", () => {
  const { parked } = read(
    { ...RIDGE, takesKind: "DRD", takesModel: "Strap D" },
    { ...RIDGE, wash: "by hand", takesKind: "coat liner", takesCode: "LK-2" },
  );
  expect(parked[1]?.problems[0]?.problem).toEqual({
    code: "rows-disagree",
    field: "wash",
    value: "by hand",
    row: 2,
    other: "machine",
  });
});

test("what goes out comes in the same, but for who recorded it", () => {
  const by = "0198a000-0000-7000-8000-00000000000e" as Uuid;
  const facts: ModelFacts = {
    maker: "Tarnholt",
    name: "Ridge 40",
    kind: "coat-shell",
    layers: ["coat-liner", "drd"],
    takes: [
      { layerKind: "coat-liner", takesLinerCode: "LK-2" },
      { layerKind: "drd", takesModel: OLD },
    ],
    wash: "machine, in a mesh bag",
    source: { what: "worn-together label", by, on: "2024-02-01" as LocalDate },
  };
  const alone: ModelFacts = {
    maker: "Fenwark",
    name: "Crag",
    kind: "hood",
    layers: [],
    takes: [],
    source: { what: "imported", by },
  };
  const [, ...rows] = layOutModels([
    { facts, takenNames: [undefined, { maker: "Tarnholt", name: "Strap D" }] },
    { facts: alone, takenNames: [] },
  ]);
  const { accepted, parked } = readCells(rows);
  expect(parked).toEqual([]);
  expect(accepted.map(({ draft }) => draft)).toEqual([
    {
      ...facts,
      takes: [facts.takes[0], { layerKind: "drd", takesModel: { maker: "Tarnholt", name: "Strap D" } }],
      source: { what: "worn-together label", on: "2024-02-01" },
    },
    { ...alone, source: { what: "imported" } },
  ]);
});
