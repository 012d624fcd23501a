import { expect, test } from "vitest";
import { parseTagNumber, type TagNumber } from "../../server/domain/tags/tag-number.ts";
import { type MadeOn, parseMadeOn } from "../../server/domain/time.ts";
import { type PieceOnTag, spareTagContent, tagContentOfPiece } from "./tag-content.ts";

const number = parseTagNumber("C7K3F92CXTKK") as TagNumber;
const madeOn = (text: string) => parseMadeOn(text) as MadeOn;
const aLiner = (change: Partial<PieceOnTag> = {}): PieceOnTag => ({
  kind: { name: "Coat liner", family: "structural", layer: "liner" },
  modelName: "K7",
  linerCode: "LK-2",
  size: "46 32 R",
  madeOn: madeOn("2022-03"),
  ...change,
});

test("a liner's tag says kind, model and liner code, then size and month, with lozenges at its edge", () => {
  expect(tagContentOfPiece(number, aLiner())).toEqual({
    number,
    kindLine: "Coat liner K7 LK-2",
    sizeLine: "46 32 R Mar 2022",
    edge: "lozenge",
  });
});

test("the code on a shell is the liner that it takes, so it does not stand on the shell's tag", () => {
  const shell = aLiner({ kind: { name: "Coat shell", layer: "shell" } });
  expect(tagContentOfPiece(number, shell)).toMatchObject({ kindLine: "Coat shell K7", edge: "grid" });
});

test("each layer has its edge, and a piece that is no layer has none", () => {
  const edgeOf = (layer?: string) =>
    tagContentOfPiece(number, { kind: { name: "Piece", ...(layer ? { layer } : {}) } }).edge;
  expect(["shell", "liner", "thermal-layer", "moisture-layer", "winter-liner", "drd"].map(edgeOf)).toEqual([
    "grid",
    "lozenge",
    "lozenge",
    "lozenge",
    "lozenge",
    "slant",
  ]);
  expect(edgeOf()).toBe("none");
});

test("a manufacture date that is known by the day shows its month, as one known by the month does", () => {
  expect(tagContentOfPiece(number, aLiner({ madeOn: madeOn("2022-03-31") })).sizeLine).toBe(
    "46 32 R Mar 2022",
  );
  expect(tagContentOfPiece(number, aLiner({ madeOn: madeOn("2021-12") })).sizeLine).toBe("46 32 R Dec 2021");
});

test("what is unknown is left out, and no line is left empty", () => {
  const bare = tagContentOfPiece(number, { kind: { name: "DRD", layer: "drd" } });
  expect(bare).toEqual({ number, kindLine: "DRD", edge: "slant" });
  expect(tagContentOfPiece(number, { kind: { name: "DRD", layer: "drd" }, size: "one size" }).sizeLine).toBe(
    "one size",
  );
});

test("the rule family does not take room on a tag", () => {
  const kindLine = (name: string, family: string) =>
    tagContentOfPiece(number, { kind: { name, family } }).kindLine;
  expect(kindLine("Proximity coat shell", "proximity")).toBe("Coat shell");
  expect(kindLine("Technical rescue gloves", "technical rescue")).toBe("Gloves");
  expect(kindLine("Structural", "structural")).toBe("Structural");
});

test("a person may leave the model's name out, or print the number and the edge alone", () => {
  expect(tagContentOfPiece(number, aLiner(), "without the model").kindLine).toBe("Coat liner LK-2");
  expect(tagContentOfPiece(number, aLiner(), "number alone")).toEqual({ number, edge: "lozenge" });
});

test("a spare tag knows nothing but its number", () => {
  expect(spareTagContent(number)).toEqual({ number, edge: "none" });
});
