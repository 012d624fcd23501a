import { expect, test } from "vitest";
import type { PlaceId } from "../ids.ts";
import { MEMBER_COLUMNS } from "./columns.ts";
import { mapColumns } from "./map-columns.ts";
import { readMemberTable } from "./read-member-table.ts";
import { indexRegister } from "./register-index.ts";

const STATION = "0198a000-0000-7000-8000-000000000001" as PlaceId;
const register = indexRegister({
  kinds: [],
  places: [
    { id: STATION, name: "Station 2", what: "station" },
    { id: STATION, name: "Rack B2", what: "rack" },
  ],
  members: [],
  providers: [],
  models: [],
});

function read(headers: readonly string[], ...rows: readonly (readonly string[])[]) {
  const { mapping } = mapColumns(headers, MEMBER_COLUMNS);
  return readMemberTable(
    rows.map((cells, at) => ({ row: at + 2, cells })),
    headers.length,
    mapping,
    register,
  );
}

test("number, name, station and shift are read", () => {
  const { accepted } = read(
    ["Employee ID", "Name", "Station", "Shift"],
    ["1042", "Corwin Bask", "station 2", "B"],
  );
  expect(accepted[0]?.draft).toEqual({ number: "1042", name: "Corwin Bask", station: STATION, shift: "B" });
});

test("first and last name make a name where no column holds it whole", () => {
  const { accepted } = read(["No.", "First name", "Surname"], ["7", "Mirela", "Ferro"], ["8", "", ""]);
  expect(accepted.map(({ draft }) => draft.name)).toEqual(["Mirela Ferro", undefined]);
});

test("a row without a number, with an unknown station, or with a number that stands twice is parked with its reasons", () => {
  const { accepted, parked } = read(
    ["Number", "Name", "Station"],
    ["", "Petra Oxholm", "Rack B2"],
    ["12", "Tobin Achterberg", ""],
    ["12 ", "Odile Verrill", ""],
  );
  expect(accepted).toEqual([]);
  expect(parked.map(({ problems }) => problems.map(({ problem }) => problem.code))).toEqual([
    ["required", "not-in-register"],
    ["same-in-file"],
    ["same-in-file"],
  ]);
});
