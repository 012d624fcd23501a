import fc from "fast-check";
import { expect, test } from "vitest";
import { guardCell, unguardCell, writeCsv, writeTemplate } from "./csv-write.ts";

test.each(["=1+1", "+1", "-1", "@x", "\tx", "\rx"])(
  "a cell that a spreadsheet would run goes out with one apostrophe: %j",
  (cell) => {
    expect(guardCell(cell)).toBe(`'${cell}`);
    expect(unguardCell(`'${cell}`)).toBe(cell);
  },
);

test.each(["'90s", "46-32-R", "", "'", "O'Hara", " =1"])(
  "other cells go out and come in as they are: %j",
  (cell) => {
    expect(guardCell(cell)).toBe(cell);
    expect(unguardCell(cell)).toBe(cell);
  },
);

test("property: what went out comes in the same, apostrophes before a formula included", () => {
  const cell = fc.string({ unit: fc.constantFrom("'", "=", "+", "-", "@", "\t", "\r", "a", "1") });
  fc.assert(
    fc.property(cell, (text) => {
      expect(unguardCell(guardCell(text))).toBe(text);
    }),
    { numRuns: 1000 },
  );
});

test("RFC 4180 section 2, rules 1, 5, 6 and 7: CRLF, and quotes around breaks, quotes and commas", () => {
  expect(
    writeCsv([
      ["aaa", "b\r\nbb", "ccc"],
      ["zzz", 'b"bb', "x,x"],
    ]),
  ).toBe('aaa,"b\r\nbb",ccc\r\nzzz,"b""bb","x,x"\r\n');
});

test("all separators are quoted, so that a spreadsheet parts at none of them", () => {
  expect(writeCsv([["a;=1", "b\tc"]])).toBe('"a;=1","b\tc"\r\n');
});

test("a row of one empty cell is still a row", () => {
  expect(writeCsv([[""], ["a"]])).toBe('""\r\na\r\n');
});

test("a template is its headers under a byte order mark", () => {
  expect(writeTemplate([{ header: "Kind" }, { header: "Maker's barcode or old number" }])).toBe(
    "\ufeffKind,Maker's barcode or old number\r\n",
  );
});
