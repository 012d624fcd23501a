import fc from "fast-check";
import { expect, test } from "vitest";
import { MEMBER_COLUMNS, MODEL_COLUMNS, PIECE_COLUMNS } from "./columns.ts";
import { foldWords } from "./fold-cell.ts";
import { mapColumns } from "./map-columns.ts";

test.each([PIECE_COLUMNS, MODEL_COLUMNS, MEMBER_COLUMNS])(
  "a template's own headers map to their own fields",
  (...columns) => {
    const headers = columns.map(({ header }) => header);
    const { mapping, unused, missing, contested } = mapColumns(headers, columns);
    expect(mapping).toEqual(Object.fromEntries(columns.map(({ field }, at) => [field, at])));
    expect([unused, missing, contested]).toEqual([[], [], []]);
  },
);

test("no header means two fields of one file", () => {
  for (const columns of [PIECE_COLUMNS, MODEL_COLUMNS, MEMBER_COLUMNS]) {
    const names = columns.flatMap(({ header, alsoCalled }) => [
      ...new Set([foldWords(header), ...alsoCalled]),
    ]);
    expect(names.filter((name, at) => names.indexOf(name) !== at)).toEqual([]);
    expect(names.filter((name) => foldWords(name) !== name)).toEqual([]);
  }
});

test("headers of a US department's sheet and of an international one are known", () => {
  const us = mapColumns(
    ["ITEM TYPE", "MFR", "Style #", "Serial No.", "Mfg. Date (label)", "P.O. #", "Unit Cost", "Assigned To"],
    PIECE_COLUMNS,
  );
  expect(us.mapping).toEqual({
    kind: 0,
    maker: 1,
    modelName: 2,
    serial: 3,
    madeOn: 4,
    purchaseOrder: 5,
    price: 6,
    member: 7,
  });
  const other = mapColumns(
    ["Article", "Manufacturer", "Date of manufacture", "Cost centre", "Storage location", "Remarks"],
    PIECE_COLUMNS,
  );
  expect(other.mapping).toEqual({ kind: 0, maker: 1, madeOn: 2, funding: 3, place: 4, note: 5 });
});

test("what no field means is unused, and a file without kinds cannot be read yet", () => {
  const { unused, missing } = mapColumns(["Colour", "Size", ""], PIECE_COLUMNS);
  expect([unused, missing]).toEqual([[0, 2], ["kind"]]);
});

test("two columns that mean one field: the first stands and both are named", () => {
  const { mapping, contested } = mapColumns(["Kind", "Notes", "Comments"], PIECE_COLUMNS);
  expect(mapping.note).toBe(1);
  expect(contested).toEqual([{ field: "note", columns: [1, 2] }]);
});

test("a header that is a field goes before one that only holds its words", () => {
  expect(mapColumns(["Old serial", "Serial", "Kind"], PIECE_COLUMNS).mapping.serial).toBe(1);
});

test("the caller's word overrides a guess, takes a column away, and out of range is no column", () => {
  const headers = ["Type", "What", "Size"];
  const overridden = mapColumns(headers, PIECE_COLUMNS, { kind: 1, size: null });
  expect(overridden.mapping).toEqual({ kind: 1 });
  expect(overridden.unused).toEqual([0, 2]);
  expect(mapColumns(headers, PIECE_COLUMNS, { kind: 9 }).missing).toEqual(["kind"]);
});

test("property: a column holds one field at most, and every column is either used or said to be unused", () => {
  const names = PIECE_COLUMNS.flatMap(({ header, alsoCalled }) => [header, ...alsoCalled]);
  const header = fc.oneof(fc.constantFrom(...names), fc.string());
  const override = fc.option(fc.integer({ min: -1, max: 12 }), { nil: null });
  fc.assert(
    fc.property(
      fc.array(header, { maxLength: 12 }),
      fc.dictionary(fc.constantFrom("kind", "size", "note"), override),
      (headers, overrides) => {
        const { mapping, unused } = mapColumns(headers, PIECE_COLUMNS, overrides);
        const used = Object.values(mapping);
        expect(new Set(used).size).toBe(used.length);
        expect([...used, ...unused].sort((a, b) => a - b)).toEqual(headers.map((_, at) => at));
      },
    ),
  );
});
