import { createHash } from "node:crypto";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Separator, writeCsv, writeCsvFile } from "../domain/intake/csv-write.ts";
import { readCsvFile, readRows } from "./csv-read.ts";

async function rowsOf(text: string, separator: Separator = ",") {
  const rows: (readonly string[])[] = [];
  for await (const cells of readRows(text, separator)) rows.push(cells);
  return rows;
}
async function fileOf(text: string) {
  const read = await readCsvFile(Buffer.from(text));
  if ("refusal" in read) throw new Error(read.refusal.code);
  return read.file;
}

describe("RFC 4180 section 2", () => {
  test.each([
    [
      "1: records parted by CRLF",
      "aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n",
      [
        ["aaa", "bbb", "ccc"],
        ["zzz", "yyy", "xxx"],
      ],
    ],
    [
      "2: no line break after the last record",
      "aaa,bbb,ccc\r\nzzz,yyy,xxx",
      [
        ["aaa", "bbb", "ccc"],
        ["zzz", "yyy", "xxx"],
      ],
    ],
    ["4: spaces are part of a field", "aaa, bbb ,ccc", [["aaa", " bbb ", "ccc"]]],
    [
      "5: fields in double quotes",
      '"aaa","bbb","ccc"\r\nzzz,yyy,xxx',
      [
        ["aaa", "bbb", "ccc"],
        ["zzz", "yyy", "xxx"],
      ],
    ],
    [
      "6: a line break in double quotes",
      '"aaa","b\r\nbb","ccc"\r\nzzz,yyy,xxx',
      [
        ["aaa", "b\r\nbb", "ccc"],
        ["zzz", "yyy", "xxx"],
      ],
    ],
    ["7: a doubled quote", '"aaa","b""bb","ccc"', [["aaa", 'b"bb', "ccc"]]],
  ])("rule %s", async (_rule, text, rows) => {
    expect(await rowsOf(text)).toEqual(rows);
  });

  test("rule 3: the first record is the header", async () => {
    const file = await fileOf("field_name,field_name,field_name\r\naaa,bbb,ccc\r\nzzz,yyy,xxx\r\n");
    expect(file.headers).toEqual(["field_name", "field_name", "field_name"]);
    expect(file.rows).toEqual([
      { row: 2, cells: ["aaa", "bbb", "ccc"] },
      { row: 3, cells: ["zzz", "yyy", "xxx"] },
    ]);
  });
});

test("line ends of LF and of CR alone are read, and a quote inside a cell stands", async () => {
  expect(await rowsOf('a\nb,5" cuff\nc')).toEqual([["a"], ["b", '5" cuff'], ["c"]]);
  expect(await rowsOf("a\rb\rc\r")).toEqual([["a"], ["b"], ["c"]]);
});

test("rows are numbered as a spreadsheet shows them: blank rows count, breaks inside a cell do not", async () => {
  const file = await fileOf('\r\nKind,Note\r\n\r\nhood,"two\nlines"\r\nhelmet,\r\n');
  expect(file.headers).toEqual(["Kind", "Note"]);
  expect(file.rows.filter(({ cells }) => cells[0] !== "").map(({ row, cells }) => [row, cells[0]])).toEqual([
    [4, "hood"],
    [5, "helmet"],
  ]);
});

describe("the separator", () => {
  test.each([
    ["comma", "Kind,Size\nhood,L\n", ","],
    ["semicolon, with commas in prices", "Kind;Price;Size\nhood;1,50;L\nhood;2,50;M\n", ";"],
    ["tab, with commas and semicolons in notes", "Kind\tNote\nhood\ta, b; c\n", "\t"],
    ["comma, with semicolons inside quotes", '"Kind","a;b;c;d"\nhood,x\n', ","],
    ["the one that a first line names", "sep=;\r\nKind;Note\r\nhood;a,b,c\r\n", ";"],
    ["comma when there is one column", "Kind\nhood\n", ","],
  ])("is found: %s", async (_what, text, separator) => {
    const file = await fileOf(text);
    expect(file.separator).toBe(separator);
    expect(file.headers[0]).toBe("Kind");
  });

  test("named in a first line keeps the row numbers of the spreadsheet", async () => {
    expect((await fileOf("sep=;\r\nKind;Note\r\nhood;x\r\n")).rows[0]?.row).toBe(3);
  });
});

test("a guarded formula start comes in without its apostrophe, other apostrophes stay", async () => {
  expect(await rowsOf("'=1+1,'-5,'90s,-5\r\n")).toEqual([["=1+1", "-5", "'90s", "-5"]]);
});

test("a quote that never closes is refused at the row where it opens", async () => {
  const read = await readCsvFile(Buffer.from('Kind,Note\nhood,x\nhelmet,"open\nboots,y\n'));
  expect(read).toEqual({ refusal: { code: "quote-never-closes", row: 3 } });
});

test("a file of separators alone has no header", async () => {
  expect(await readCsvFile(Buffer.from(",,\n,,\n"))).toEqual({ refusal: { code: "no-header" } });
});

test("FIPS 180-4 by another implementation: a file is keyed by the SHA-256 of its bytes", async () => {
  expect((await fileOf("abc")).hash).toBe("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  const text = "Kind\r\nhood\r\n";
  expect((await fileOf(text)).hash).toBe(createHash("sha256").update(text).digest("hex"));
});

const cell = fc.oneof(
  fc.string({ unit: "grapheme", maxLength: 8 }),
  fc.string({
    unit: fc.constantFrom("'", '"', ",", ";", "\t", "\r", "\n", "=", "-", "@", "+", " ", "a", "é", "€"),
    maxLength: 8,
  }),
);
const tables = fc.array(fc.array(cell, { minLength: 1, maxLength: 4 }), { minLength: 1, maxLength: 6 });

test("property: whatever cells go out, the same come in, with each separator", async () => {
  await fc.assert(
    fc.asyncProperty(tables, fc.constantFrom<Separator>(",", ";", "\t"), async (rows, separator) => {
      expect(await rowsOf(writeCsv(rows, separator), separator)).toEqual(rows);
    }),
    { numRuns: 1000 },
  );
});

test("property: no cell goes out that a spreadsheet would run", () => {
  fc.assert(
    fc.property(cell, (text) => {
      expect(writeCsv([[text]])).not.toMatch(/^"?[=+\-@\t\r]/);
    }),
    { numRuns: 1000 },
  );
});

test("cells that lie across the parts in which a file is read stay whole, and progress reaches the end", async () => {
  const long = `=${"é\r\n".repeat(50_000)}`;
  const seen: number[] = [];
  const read = await readCsvFile(
    Buffer.from(
      writeCsvFile([
        ["Kind", "Note"],
        ["hood", long],
      ]),
    ),
    (done, all) => seen.push(done / all),
  );
  expect("file" in read && read.file.rows[0]?.cells).toEqual(["hood", long]);
  expect(seen.at(-1)).toBe(1);
  expect(seen.length).toBeGreaterThan(2);
});
