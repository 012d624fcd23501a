import { describe, expect, test } from "vitest";
import { holdersOf, runTrace, staysOf } from "../../../test/kit/trace-files.ts";

describe("how files are written", () => {
  const HOLDERS = "holder,carries,cleaned\nRack B2,shared,\n";

  test("byte order mark, CRLF, quotes, other columns, other separators and offsets are read", async () => {
    const stays =
      '\ufeffnote;Holder;piece;from;to\r\n;"Rack B2";"coat; ""A""@1";2026-11-12T05:00-05:00;\r\n\r\n' +
      "x;Rack B2;p2;2026-11-12T11:30:00.250+01:00;2026-11-12T10:45:00,5Z\r\n";
    const { written, err } = await runTrace(
      { stays, holders: HOLDERS },
      "--from",
      'coat; "A"@1@2026-11-12T10:00:00Z',
    );
    expect(err).toBe("");
    expect(written).toContain("p2,2026-11-12T10:30:00.250Z,1,");
    const old = await runTrace(
      {
        stays: "piece,holder,from,to\rp1,Rack B2,2026-11-12T10:00Z,\rp2,Rack B2,2026-11-12T10:00Z,\r",
        holders: HOLDERS,
      },
      ...["--from", "p1@2026-11-12T10:00Z"],
    );
    expect(old.written).toContain("p2,2026-11-12T10:00:00Z,1,");
  });

  test("every bad row is listed with its line, and nothing is written", async () => {
    const stays = [
      "piece,holder,from,to",
      "p1,Rack B2,2026-11-12T10:00:00Z,2026-11-12T12:00:00Z",
      "p1,Rack B2,2026-11-12T11:59:59Z,2026-11-12T13:00:00Z",
      "p1,Rack B2,2026-11-12T13:00:00Z,",
      ",Rack B2,2026-11-12T10:00:00Z,",
      '"p\n2",Rack C9,2026-11-12T10:00:00,2026-11-12T10:00:00Z',
      "p3,Rack B2,2026-11-12T10:00:00Z,2026-11-12T09:00:00Z",
      "p4,Rack B2,yesterday,2026-02-30T09:00:00Z",
      "p5,Rack B2",
      "p6,Rack B2,2026-11-12T10:00:00Z,,surplus",
    ].join("\n");
    const holders =
      "holder,carries,cleaned\nRack B2,shared,\nRack B2,apart,2026-11-12T25:00:00Z\nBag,open,\n";
    const cleanings = "piece,at\np1,\n";
    const { code, written, err } = await runTrace(
      { stays, holders, cleanings },
      "--from",
      "p1@2026-11-12T10:00:00Z",
    );
    expect(code).toBe(2);
    expect(written).toBeUndefined();
    expect(err.split("\n")).toEqual([
      'holders.csv line 3: the holder "Rack B2" is on line 2 already.',
      'holders.csv line 3: cleaned "2026-11-12T25:00:00Z" is no time of the day.',
      'holders.csv line 4: carries is "open", not closed, shared or apart.',
      "stays.csv line 5: the piece is empty.",
      'stays.csv line 6: the holder "Rack C9" is not in the file of holders.',
      'stays.csv line 6: from "2026-11-12T10:00:00" has no offset: write Z for UTC, or as +01:00.',
      "stays.csv line 8: ends at 2026-11-12T09:00:00Z, before it begins at 2026-11-12T10:00:00Z.",
      'stays.csv line 9: from "yesterday" is no time: write it as 2026-11-12T04:50:00-05:00.',
      'stays.csv line 9: to "2026-02-30T09:00:00Z" is no day of the calendar.',
      "stays.csv line 10: has 2 cells, the header 4.",
      "stays.csv line 11: has 5 cells, the header 4: quote a cell that holds a separator.",
      'stays.csv line 3: the stay of "p1" overlaps its stay on line 2.',
      "cleanings.csv line 2: at is empty.",
      "13 rows are not as they should be. Nothing was written.",
    ]);
  });

  test("a stay inside another one overlaps, one that lasts overlaps all that come after, touching ones do not", async () => {
    const stays = staysOf(
      "p1,A,5,20",
      "p1,A,7,7",
      "p2,A,5,5",
      "p2,A,5,9",
      "p2,A,9,9",
      "p2,A,9,",
      "p3,A,5,",
      "p3,A,8,9",
    );
    const { err } = await runTrace(
      { stays, holders: holdersOf("A,shared,") },
      "--from",
      "p2@2026-11-12T05:00:00Z",
    );
    expect(err.split("\n").slice(0, -1)).toEqual([
      'stays.csv line 3: the stay of "p1" overlaps its stay on line 2.',
      'stays.csv line 9: the stay of "p3" overlaps its stay on line 8.',
    ]);
  });

  test("a missing column, an open quote and a file of another kind are told", async () => {
    const ask = ["--from", "p1@2026-11-12T10:00:00Z"];
    expect((await runTrace({ stays: "piece,holder,from\n", holders: HOLDERS }, ...ask)).err).toContain(
      "stays.csv line 1: the header lacks to: it is piece,holder,from,to.",
    );
    expect(
      (await runTrace({ stays: 'piece,holder,from,to\n\n"p1,A', holders: HOLDERS }, ...ask)).err,
    ).toContain("stays.csv line 3: a quote that opens in this row never closes.");
    expect(
      (await runTrace({ stays: Buffer.from([0x50, 0x4b, 3, 4]), holders: HOLDERS }, ...ask)).err,
    ).toContain("It is a workbook.");
  });
});

describe("what cannot be asked ends with 2 and writes nothing", () => {
  const FILES = { stays: staysOf("p1,A,5,10", "p1,A,12,14"), holders: holdersOf("A,shared,") };
  test.each([
    ["no start", [], "trace needs --from PIECE@TIME at least once."],
    ["a start without a time", ["--from", "p1"], '--from takes PIECE@TIME, not "p1".'],
    ["a start without an offset", ["--from", "p1@2026-11-12T05:00"], "has no offset"],
    [
      "a start between two stays",
      ["--from", "p1@2026-11-12T11:00:00Z"],
      '"p1" has no stay at 2026-11-12T11:00:00Z',
    ],
    ["a piece that is not there", ["--from", "p9@2026-11-12T05:00:00Z"], '"p9" has no stay at'],
    [
      "steps that are no number",
      ["--from", "p1@2026-11-12T05:00:00Z", "--hops", "two"],
      "--hops takes a whole number",
    ],
    [
      "apart as a carrier",
      ["--from", "p1@2026-11-12T05:00:00Z", "--carriers", "apart"],
      "kept apart is not followed",
    ],
    [
      "a window that ends before it begins",
      ["--from", "p1@2026-11-12T05:00:00Z", "--until", "2026-11-12T04:00:00Z"],
      "--until 2026-11-12T04:00:00Z is before the start",
    ],
    [
      "a backward window that begins after it ends",
      ["--backward", "--from", "p1@2026-11-12T05:00:00Z", "--until", "2026-11-12T06:00:00Z"],
      "--until 2026-11-12T06:00:00Z is after the start",
    ],
  ])("%s", async (_, options, says) => {
    const { code, written, err } = await runTrace(FILES, ...options);
    expect(code).toBe(2);
    expect(written).toBeUndefined();
    expect(err).toContain(says);
  });
});
