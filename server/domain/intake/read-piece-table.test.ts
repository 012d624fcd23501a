import { describe, expect, test } from "vitest";
import type { MemberId, ModelId, PieceId, PlaceId, ProviderId } from "../ids.ts";
import { STANDARD_KINDS } from "../register/standard-kinds.ts";
import type { LocalDate } from "../time.ts";
import { PIECE_COLUMNS, type PieceField } from "./columns.ts";
import { mapColumns } from "./map-columns.ts";
import { layOutParked } from "./parked-rows.ts";
import { parkRegistered, readPieceTable, serialKey } from "./read-piece-table.ts";
import { indexRegister } from "./register-index.ts";

const TODAY = "2025-11-20" as LocalDate;
const RACK = "0198a000-0000-7000-8000-000000000001" as PlaceId;
const SHELF = "0198a000-0000-7000-8000-000000000002" as PlaceId;
const MEMBER = "0198a000-0000-7000-8000-000000000003" as MemberId;
const PROVIDER = "0198a000-0000-7000-8000-000000000004" as ProviderId;
const MODEL = "0198a000-0000-7000-8000-000000000005" as ModelId;
const register = indexRegister({
  kinds: STANDARD_KINDS,
  places: [
    { id: RACK, name: "Rack B2", what: "rack" },
    { id: RACK, name: "Shelf", what: "shelf" },
    { id: SHELF, name: "shelf", what: "shelf" },
  ],
  members: [{ id: MEMBER, number: "1042" }],
  providers: [{ id: PROVIDER, name: "Saltmarsh Textile Care" }],
  models: [{ id: MODEL, maker: "Tarnholt", name: "Ridge 40", kind: "coat-shell" }],
});

type Cells = { readonly [Each in PieceField]?: string };
const FIELDS = PIECE_COLUMNS.map(({ field }) => field);
const HEADERS = PIECE_COLUMNS.map(({ header }) => header);
const { mapping } = mapColumns(HEADERS, PIECE_COLUMNS);

function read(...rows: readonly Cells[]) {
  const file = rows.map((cells, at) => ({ row: at + 2, cells: FIELDS.map((field) => cells[field] ?? "") }));
  return readPieceTable(file, HEADERS.length, mapping, register, TODAY);
}
function problemsOf(cells: Cells) {
  return read({ kind: "coat shell", ...cells }).parked.flatMap(({ problems }) =>
    problems.map(({ problem }) => problem),
  );
}

test("a row with its kind alone is a piece of which all else is unknown", () => {
  const { accepted, parked } = read({ kind: "DRD" });
  expect(parked).toEqual([]);
  expect(accepted[0]?.draft).toEqual({
    kind: "drd",
    label: {},
    reading: "not yet read",
    file: { owner: { kind: "department" } },
  });
});

test("a full row is read whole", () => {
  const { accepted } = read({
    kind: "Coat shell",
    maker: "Tarnholt",
    modelName: "ridge 40",
    size: " 46  32 R ",
    pattern: "Men's",
    linerCode: "LK-2",
    serial: "T-1881",
    lot: "L9",
    cutNumber: "77",
    madeOn: "2019-05",
    materials: "aramid",
    labelReading: "yes",
    owner: "provider saltmarsh textile care",
    funding: "Grant 12",
    purchaseOrder: "PO-9",
    price: "$1,850.00",
    inServiceOn: "2019-05-20",
    place: "rack b2",
    member: "1042",
    set: "front-line",
    foreignCode: "889",
    note: "two\nlines",
  });
  expect(accepted[0]?.draft).toEqual({
    kind: "coat-shell",
    model: MODEL,
    label: {
      maker: "Tarnholt",
      modelName: "ridge 40",
      size: "46 32 R",
      pattern: "Men's",
      linerCode: "LK-2",
      serial: "T-1881",
      lot: "L9",
      cutNumber: "77",
      madeOn: "2019-05",
      materials: "aramid",
    },
    reading: "read",
    file: {
      owner: { kind: "provider", id: PROVIDER },
      funding: "Grant 12",
      purchaseOrder: "PO-9",
      priceCents: 185000,
      inServiceOn: "2019-05-20",
    },
    place: RACK,
    member: MEMBER,
    set: "front-line",
    foreignCode: "889",
    note: "two\nlines",
  });
});

test("all that is wrong with a row is said at once, each thing at its column", () => {
  const { accepted, parked } = read({
    kind: "Coat",
    madeOn: "03/04/2019",
    price: "1,850",
    place: "Rack Z",
    member: "7",
    owner: "the chief",
  });
  expect(accepted).toEqual([]);
  const placed = parked[0]?.problems.map(({ row, column, problem }) => [
    row,
    HEADERS[column ?? -1],
    problem.code,
  ]);
  expect(placed).toEqual([
    [2, "Kind", "kind-unclear"],
    [2, "Made", "date-unreadable"],
    [2, "Owner", "not-a-choice"],
    [2, "Price", "money-unreadable"],
    [2, "Place", "not-in-register"],
    [2, "Member", "not-in-register"],
  ]);
});

describe("a row is parked", () => {
  test.each<[string, Cells, object]>([
    ["without a kind", { kind: " ", size: "L" }, { code: "required", field: "kind" }],
    ["of an unknown kind", { kind: "Ladder" }, { code: "kind-unknown", value: "Ladder" }],
    ["made after today", { madeOn: "2025-12" }, { code: "date-ahead", field: "madeOn" }],
    ["in service in a month alone", { inServiceOn: "2024-05" }, { code: "day-needed" }],
    [
      "in service before it was made",
      { madeOn: "2024-05", inServiceOn: "2024-04-30" },
      { code: "in-service-before-made", made: "2024-05" },
    ],
    ["with a place that two have", { place: "Shelf" }, { code: "named-twice", what: "place" }],
    ["with a set and no member", { set: "second" }, { code: "set-without-member" }],
    [
      "owned by a member whom nobody knows",
      { owner: "member 9" },
      { code: "not-in-register", field: "owner", what: "member" },
    ],
    [
      "with a label reading that is none",
      { labelReading: "maybe" },
      { code: "not-a-choice", field: "labelReading" },
    ],
    ["with text that is too long", { size: "4".repeat(201) }, { code: "too-long", length: 201, most: 200 }],
  ])("%s", (_why, cells, problem) => {
    const problems = problemsOf(cells);
    expect(problems).toHaveLength(1);
    expect(problems[0]).toMatchObject(problem);
  });

  test("with cells beyond the headers", () => {
    const file = [
      { row: 2, cells: ["hood", "Tarnholt", "x"] },
      { row: 3, cells: ["hood", "Tarnholt", " "] },
    ];
    const { accepted, parked } = readPieceTable(file, 2, { kind: 0, maker: 1 }, register, TODAY);
    expect(accepted.map(({ row }) => row)).toEqual([3]);
    expect(parked[0]?.problems[0]?.problem).toEqual({ code: "cells-beyond-columns", cells: 3, columns: 2 });
  });
});

test("a piece may go into service in the month that made it", () => {
  expect(problemsOf({ madeOn: "2024-05", inServiceOn: "2024-05-01" })).toEqual([]);
});

test("blank rows are left out, short rows are read", () => {
  const file = [
    { row: 2, cells: ["", " "] },
    { row: 3, cells: ["hood"] },
  ];
  const { accepted, parked } = readPieceTable(file, 2, { kind: 0, maker: 1 }, register, TODAY);
  expect([accepted.length, parked.length]).toEqual([1, 0]);
});

describe("one piece twice", () => {
  const twice = { kind: "coat shell", maker: "Tarnholt", serial: "T-1" };

  test("in the file parks both rows, each naming the other", () => {
    const { accepted, parked } = read(
      twice,
      { ...twice, maker: "TARNHOLT", serial: "t-1" },
      { ...twice, serial: "T-2" },
    );
    expect(accepted.map(({ row }) => row)).toEqual([4]);
    expect(parked.map(({ problems }) => problems[0]?.problem)).toEqual([
      { code: "same-in-file", field: "serial", value: "T-1", rows: [3] },
      { code: "same-in-file", field: "serial", value: "t-1", rows: [2] },
    ]);
  });

  test("is not told from a lot, nor from a serial of another kind or of a maker unknown", () => {
    const lots = { kind: "hood", maker: "Tarnholt", lot: "L1" };
    const { parked } = read(
      lots,
      lots,
      twice,
      { ...twice, kind: "coat liner" },
      { kind: "hood", serial: "9" },
      { kind: "hood", serial: "9" },
    );
    expect(parked).toEqual([]);
  });

  test("by foreign code parks both rows", () => {
    expect(
      read({ kind: "hood", foreignCode: "A1" }, { kind: "helmet", foreignCode: "a1" }).parked,
    ).toHaveLength(2);
  });

  test("in the register parks the row and names the piece", () => {
    const piece = "0198a000-0000-7000-8000-0000000000aa" as PieceId;
    const table = read(twice, { kind: "hood", foreignCode: "A1" }, { kind: "hood" });
    const key = serialKey({ kind: "coat-shell", label: { maker: "Tarnholt", serial: "T-1" } }) ?? "";
    const { accepted, parked } = parkRegistered(
      table,
      mapping,
      new Map([[key, piece]]),
      new Map([["a1", piece]]),
    );
    expect(accepted.map(({ row }) => row)).toEqual([4]);
    expect(parked.map(({ problems }) => problems[0]?.problem)).toEqual([
      { code: "in-register-already", field: "serial", value: "T-1", piece },
      { code: "in-register-already", field: "foreignCode", value: "A1", piece },
    ]);
  });
});

test("parked rows go out as they came, with their row and every reason in words", () => {
  const file = [{ row: 7, cells: ["Coat", "03/04/2019", "extra"] }];
  const { parked } = readPieceTable(file, 2, { kind: 0, madeOn: 1 }, register, TODAY);
  const [headers, row] = layOutParked(["Type", "Mfg date"], parked);
  expect(headers).toEqual(["Type", "Mfg date", "", "Row in the file", "Why this row was parked"]);
  expect(row?.slice(0, 4)).toEqual(["Coat", "03/04/2019", "extra", "7"]);
  expect(row?.[4]).toMatch(
    /^Type: "Coat" may be .*Coat shell.* Mfg date: "03\/04\/2019" could be .* Next: write 2024-03-05/,
  );
  expect(row?.[4]).toContain("3 cells under 2 headers");
});

test("a file of parked rows can be brought in again: its two further columns hold no field", () => {
  const [headers = []] = layOutParked(HEADERS, []);
  expect(mapColumns(headers, PIECE_COLUMNS).unused).toEqual([HEADERS.length, HEADERS.length + 1]);
});
