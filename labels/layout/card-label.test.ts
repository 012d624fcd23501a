import { expect, test } from "vitest";
import { parseTagNumber, type TagNumber } from "../../server/domain/tags/tag-number.ts";
import { type Card, faceOfCard } from "./card-face.ts";
import { layoutCard } from "./card-label.ts";
import { placeCards } from "./card-pages.ts";
import type { MeasureText } from "./fit-text.ts";
import type { PlacedBox, PlacedLabel } from "./placed-box.ts";
import { PRINTERS } from "./printer.ts";

const printer = PRINTERS["203"];
const number = parseTagNumber("C7K3F92CXTKK") as TagNumber;
const measure: MeasureText = (text) => ({ width: text.length * 0.45 });
const place = (name: string): Card => ({ card: "place", place: name, number });

function laidOut(card: Card): PlacedLabel {
  const label = layoutCard(faceOfCard(card), printer, measure);
  if ("faults" in label) throw new Error(JSON.stringify(label.faults));
  return label;
}
const ofKind = <Kind extends PlacedBox["box"]>(label: PlacedLabel, kind: Kind) =>
  label.boxes.filter((box): box is Extract<PlacedBox, { box: Kind }> => box.box === kind);
const heading = (label: PlacedLabel) => ofKind(label, "text").filter(({ face }) => face === "heading");

test("a card is 105 × 74 mm with a code of 26 mm", () => {
  const label = laidOut({ card: "action", action: "confirm", number });
  expect([label.width, label.height]).toEqual([840, 592]);
  expect(ofKind(label, "symbol")).toMatchObject([{ number, module: 13 }]);
});

test("a card that writes has a filled band of 25 mm and two rows of stitches in white", () => {
  const label = laidOut({ card: "action", action: "turn in", number });
  expect(ofKind(label, "bar")).toEqual([{ box: "bar", x: 0, y: 0, width: 840, height: 200, ink: "black" }]);
  expect(ofKind(label, "strokes").map(({ ink }) => ink)).toEqual(["white", "white"]);
  expect(heading(label)).toMatchObject([{ text: "Turn in", ink: "white" }]);
});

test("a card that changes nothing has an open band, a rule below it and one row of stitches", () => {
  const label = laidOut({ card: "action", action: "look up", number });
  expect(ofKind(label, "bar")).toEqual([{ box: "bar", x: 0, y: 196, width: 840, height: 4, ink: "black" }]);
  expect(ofKind(label, "strokes").map(({ ink }) => ink)).toEqual(["black"]);
  expect(heading(label)).toMatchObject([{ text: "Look up", ink: "black" }]);
});

test("a heading steps down 12, 9.8, 8 mm and then takes two lines", () => {
  const sizes = ["B2", "B2 left", "Rack B2 left", "Rack B2, far left corner"].map((name) =>
    heading(laidOut(place(name))).map(({ text, size }) => [text, size / 8]),
  );
  expect(sizes).toEqual([
    [["Transfer to B2", 12]],
    [["Transfer to B2 left", 9.8]],
    [["Transfer to Rack B2 left", 8]],
    [
      ["Transfer to Rack B2, far", 8],
      ["left corner", 8],
    ],
  ]);
});

test("two heading lines stay between the two rows of stitches", () => {
  const label = laidOut(place("Rack B2, far left corner"));
  const [top, bottom] = ofKind(label, "strokes").map(({ lines }) => lines[0]?.[1] ?? 0);
  const [first, second] = heading(label);
  if (first === undefined || second === undefined) throw new Error("not two lines");
  expect(first.baseline - first.size * 0.75).toBeGreaterThan(top ?? 0);
  expect(second.baseline + second.size * 0.25).toBeLessThan(bottom ?? 0);
});

test("a heading that two lines cannot hold is a fault, as is one without a blank to break at", () => {
  for (const name of ["x".repeat(60), "the far corner of the gear room behind the third bay door"])
    expect(layoutCard(faceOfCard(place(name)), printer, measure)).toMatchObject({
      faults: [{ code: "text-does-not-fit" }],
    });
});

test("member cards and badges have no field for a name", () => {
  const words = (card: Card) => JSON.stringify({ ...faceOfCard(card), number: undefined });
  const other = parseTagNumber("X00000000013") as TagNumber;
  for (const card of ["member", "badge"] as const)
    expect(words({ card, number })).toBe(words({ card, number: other }));
});

test("four cards lie on a sheet across, edge to edge, with cut marks that touch none of them", () => {
  const cards = Array.from({ length: 5 }, () => laidOut({ card: "badge", number }));
  const pages = placeCards(cards, "Letter", printer);
  expect(pages.map((page) => page.labels.length)).toEqual([4, 1]);
  const [page] = pages;
  if (page === undefined) throw new Error("no page");
  expect(page.width).toBeGreaterThan(page.height);
  const [first, second, third] = page.labels;
  expect((second?.x ?? 0) - (first?.x ?? 0)).toBe(840);
  expect((third?.y ?? 0) - (first?.y ?? 0)).toBe(592);
  const left = first?.x ?? 0;
  const top = first?.y ?? 0;
  for (const mark of page.marks) {
    if (mark.box !== "strokes") throw new Error("a mark is not a stroke");
    for (const [x1, y1, x2, y2] of mark.lines) {
      const isBeside = Math.max(x1, x2) < left || Math.min(x1, x2) > left + 1_680;
      const isAbove = Math.max(y1, y2) < top || Math.min(y1, y2) > top + 1_184;
      expect(isBeside || isAbove).toBe(true);
    }
  }
});
