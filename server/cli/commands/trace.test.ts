import { describe, expect, test } from "vitest";
import { cleaningsOf, holdersOf, runTrace, staysOf, traced } from "../../../test/kit/trace-files.ts";

describe("at one instant", () => {
  const RACKS = holdersOf("A,shared,", "B,shared,", "C,closed,");

  test("three steps follow each other, whatever the order of the rows", async () => {
    const stays = staysOf("p4,C,2,10", "p3,B,2,10", "p3,C,10,12", "p2,A,2,10", "p2,B,10,12", "p1,A,10,12");
    expect(await traced({ stays, holders: RACKS }, "--from", "p1@10")).toEqual([
      "p2 10 1",
      "p3 10 2",
      "p4 10 3",
    ]);
  });

  test("a piece that arrives meets the piece that leaves, but not one that had left", async () => {
    const stays = staysOf("p1,A,10,12", "p2,A,5,10", "p3,A,5,9");
    expect(await traced({ stays, holders: RACKS }, "--from", "p1@10")).toEqual(["p2 10 1"]);
  });

  test("departure, cleaning of the holder, arrival: they do not meet", async () => {
    const stays = staysOf("p1,A,5,10", "p2,A,10,12", "p3,A,8,9");
    const holders = holdersOf("A,shared,10");
    expect(await traced({ stays, holders }, "--from", "p1@5")).toEqual(["p3 8 1"]);
    expect(await traced({ stays, holders: RACKS }, "--from", "p1@5")).toEqual(["p3 8 1", "p2 10 1"]);
  });

  test("departure, cleaning of the piece, arrival: it carries nothing on", async () => {
    const stays = staysOf("p1,A,5,20", "p2,A,6,10", "p2,B,10,12", "p3,B,9,14");
    const files = { stays, holders: RACKS };
    expect(await traced(files, "--from", "p1@5")).toEqual(["p2 6 1", "p3 10 2"]);
    expect(await traced({ ...files, cleanings: cleaningsOf("p2,10") }, "--from", "p1@5")).toEqual(["p2 6 1"]);
  });

  test("a stay without length touches what is there, and passes on what it met", async () => {
    const stays = staysOf("p1,A,5,10", "p1,B,10,10", "p1,C,10,12", "p2,B,8,14", "p3,C,9,11");
    expect(await traced({ stays, holders: RACKS }, "--from", "p1@5")).toEqual(["p2 10 1", "p3 10 1"]);
  });

  test("a stay without length as the holder is cleaned comes after the cleaning", async () => {
    const stays = staysOf("p1,A,5,10", "p1,B,10,10", "p2,B,8,10", "p3,B,10,12");
    const holders = holdersOf("A,shared,", "B,shared,10");
    expect(await traced({ stays, holders }, "--from", "p1@5")).toEqual(["p3 10 1"]);
  });

  test("where one stay ends as the next begins the start is in the later", async () => {
    const stays = staysOf("p1,A,5,10", "p1,B,10,12", "p2,A,5,12", "p3,B,5,12");
    expect(await traced({ stays, holders: RACKS }, "--from", "p1@10")).toEqual(["p3 10 1"]);
  });

  test("a start at the last instant of the last stay is still there", async () => {
    const stays = staysOf("p1,A,5,10", "p2,A,10,12");
    expect(await traced({ stays, holders: RACKS }, "--from", "p1@10")).toEqual(["p2 10 1"]);
  });
});

describe("cleanings", () => {
  const RACKS = holdersOf("A,shared,", "B,shared,");

  test("a stay that spans a cleaning of its holder carries on into what comes after", async () => {
    const stays = staysOf("p1,A,5,8", "p2,A,6,20", "p3,A,12,14", "p4,A,8,9");
    const holders = holdersOf("A,shared,10");
    expect(await traced({ stays, holders }, "--from", "p1@5")).toEqual(["p2 6 1", "p4 8 1", "p3 12 2"]);
  });

  test("a holder that nobody spans starts anew at its cleaning", async () => {
    const stays = staysOf("p1,A,5,8", "p3,A,12,14");
    expect(await traced({ stays, holders: holdersOf("A,shared,10;16") }, "--from", "p1@5")).toEqual([]);
    expect(await traced({ stays, holders: RACKS }, "--from", "p1@5")).toEqual(["p3 12 1"]);
  });

  test("what arrives in the instant of the cleaning does not reach back over it through a stay that spans it", async () => {
    const stays = staysOf("p1,A,10,12", "p2,A,5,20", "p3,A,5,10");
    expect(await traced({ stays, holders: holdersOf("A,shared,10") }, "--from", "p1@10")).toEqual([
      "p2 10 1",
    ]);
  });

  test("a piece that was cleaned is reached again by where it lies", async () => {
    const stays = staysOf("p1,A,5,8", "p2,A,6,14", "p2,B,14,20", "p3,B,15,16");
    const cleanings = cleaningsOf("p2,10");
    expect(await traced({ stays, holders: RACKS, cleanings }, "--from", "p1@5")).toEqual([
      "p2 6 1",
      "p3 15 2",
    ]);
  });

  test("a piece that was cleaned and went elsewhere carries nothing on", async () => {
    const stays = staysOf("p1,A,5,8", "p2,A,6,9", "p2,B,14,20", "p3,B,15,16");
    const cleanings = cleaningsOf("p2,10");
    expect(await traced({ stays, holders: RACKS, cleanings }, "--from", "p1@5")).toEqual(["p2 6 1"]);
  });
});

describe("what is asked", () => {
  const FILES = {
    stays: staysOf(
      "p1,A,1,4",
      "p2,A,2,6",
      "p2,B,6,9",
      "p3,B,7,9",
      "p3,C,9,12",
      "p4,C,10,",
      "p5,Peg 3,1,",
      "p1,Peg 3,4,",
    ),
    holders: holdersOf("A,closed,", "B,shared,", "C,shared,", "Peg 3,apart,"),
  };

  test("closed and shared holders are followed, apart never", async () => {
    expect(await traced(FILES, "--from", "p1@1")).toEqual(["p2 2 1", "p3 7 2", "p4 10 3"]);
    expect(await traced(FILES, "--from", "p1@1", "--carriers", "closed,shared")).toHaveLength(3);
    expect(await traced(FILES, "--from", "p1@1", "--carriers", "closed")).toEqual(["p2 2 1"]);
  });

  test("hops and until cut, the end of the window included", async () => {
    expect(await traced(FILES, "--from", "p1@1", "--hops", "2")).toEqual(["p2 2 1", "p3 7 2"]);
    expect(await traced(FILES, "--from", "p1@1", "--until", "2026-11-12T07:00:00Z")).toEqual([
      "p2 2 1",
      "p3 7 2",
    ]);
    expect(await traced(FILES, "--from", "p1@1", "--until", "2026-11-12T06:59:59.999999Z")).toEqual([
      "p2 2 1",
    ]);
    expect(await traced(FILES, "--from", "p1@1", "--hops", "0")).toEqual([]);
  });

  test("backward gives the latest departure that still leads to the start", async () => {
    expect(await traced(FILES, "--backward", "--from", "p4@11")).toEqual(["p3 11 1", "p2 9 2", "p1 4 3"]);
    expect(await traced(FILES, "--backward", "--from", "p4@11", "--until", "2026-11-12T05:00:00Z")).toEqual([
      "p3 11 1",
      "p2 9 2",
    ]);
  });

  test("an arrival by fewer steps counts before an earlier one by more, and both are walked on", async () => {
    const stays = staysOf(
      "p1,A,1,3",
      "p2,A,2,4",
      "p2,B,4,5",
      "p3,B,4,5",
      "p3,C,6,12",
      "p1,D,8,9",
      "p3,D,12,13",
      "p4,C,5,7",
    );
    const holders = holdersOf("A,shared,", "B,shared,", "C,shared,", "D,shared,");
    expect(await traced({ stays, holders }, "--from", "p1@1")).toEqual(["p2 2 1", "p3 12 1", "p4 6 3"]);
  });

  test("several starts count together, each from its own time, and are left out", async () => {
    expect(await traced(FILES, "--from", "p1@1", "--from", "p3@9")).toEqual(["p2 2 1", "p4 10 1"]);
  });

  test("a path names each holder and piece with its moment, and reads in the order of time both ways", async () => {
    const pathOf = async (...options: string[]) => {
      const { written } = await runTrace(FILES, ...options);
      return written
        ?.split("\n")[2]
        ?.split(",")[3]
        ?.replaceAll(/2026-11-12T(\d\d):00:00Z/g, "$1");
    };
    const forward = await pathOf("--from", "p1@2026-11-12T01:00:00Z", "--hops", "2");
    expect(forward).toBe("p1@01 > A@01 > p2@02 > B@06 > p3@07");
    const backward = await pathOf("--backward", "--from", "p3@2026-11-12T08:00:00Z");
    expect(backward).toBe("p1@04 > A@06 > p2@08 > B@08 > p3@08");
  });
});
