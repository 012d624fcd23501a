import { expect, test } from "vitest";
import { parseTagNumber, type TagNumber } from "../../server/domain/tags/tag-number.ts";
import type { MeasureText } from "./fit-text.ts";
import type { LayerEdge } from "./layer-edge.ts";
import { CLEAR_MODULES, type PlacedBox, type PlacedLabel, SYMBOL_MODULES } from "./placed-box.ts";
import { PRINTERS, type Printer } from "./printer.ts";
import type { TagContent } from "./tag-content.ts";
import { layoutTag, TAG_MM } from "./tag-label.ts";

const number = parseTagNumber("C7K3F92CXTKK") as TagNumber;
/** Every character as wide as the widest digit of the face that is printed. */
const measure: MeasureText = (text) => ({ width: text.length * 0.632 });
const full = (edge: LayerEdge): TagContent => ({
  number,
  kindLine: "Coat shell K7",
  sizeLine: "46 32 R Mar 22",
  edge,
});

function laidOut(content: TagContent, printer: Printer): PlacedLabel {
  const label = layoutTag(content, printer, measure);
  if ("faults" in label) throw new Error(JSON.stringify(label.faults));
  return label;
}
const ofKind = <Kind extends PlacedBox["box"]>(label: PlacedLabel, kind: Kind) =>
  label.boxes.filter((box): box is Extract<PlacedBox, { box: Kind }> => box.box === kind);

test("the look's figures at 203 dpi: 400 × 200 dots, code of 8 dots a module at (24, 36), number at x 174, baselines 50, 94, 138", () => {
  const label = laidOut(full("grid"), PRINTERS["203"]);
  expect([label.width, label.height]).toEqual([400, 200]);
  expect(ofKind(label, "symbol")).toEqual([{ box: "symbol", number, x: 24, y: 36, module: 8 }]);
  const texts = ofKind(label, "text");
  expect(texts.map(({ text, x, baseline, size }) => [text, x, baseline, size])).toEqual([
    ["C7K3", 174, 50, 50],
    ["F92C", 174, 94, 50],
    ["XTKK", 174, 138, 50],
    ["Coat shell K7", 174, 166, 20.5],
    ["46 32 R Mar 22", 174, 188, 20.5],
  ]);
});

test("the layer edge is 26 dots wide from x 362 and nothing of it leaves that area", () => {
  for (const edge of ["grid", "lozenge", "slant"] as const) {
    const label = laidOut(full(edge), PRINTERS["203"]);
    const areas = [
      ...ofKind(label, "bar"),
      ...ofKind(label, "strokes").map((strokes) => strokes.clip ?? { x: 0, y: 0, width: 400, height: 200 }),
    ];
    expect(areas.length).toBeGreaterThan(0);
    for (const { x, y, width, height } of areas) {
      expect(x).toBeGreaterThanOrEqual(362);
      expect(x + width).toBeLessThanOrEqual(388);
      expect(y).toBeGreaterThanOrEqual(14);
      expect(y + height).toBeLessThanOrEqual(186);
    }
  }
  const none = laidOut(full("none"), PRINTERS["203"]);
  expect([...ofKind(none, "bar"), ...ofKind(none, "strokes")]).toEqual([]);
});

test("two modules around the code stay clear at every resolution", () => {
  for (const printer of Object.values(PRINTERS)) {
    const label = laidOut(full("lozenge"), printer);
    const [symbol] = ofKind(label, "symbol");
    if (symbol === undefined) throw new Error("no symbol");
    const clear = CLEAR_MODULES * symbol.module;
    const right = symbol.x + SYMBOL_MODULES * symbol.module + clear;
    expect(symbol.x).toBeGreaterThanOrEqual(clear);
    expect(symbol.y).toBeGreaterThanOrEqual(clear);
    expect(symbol.y + SYMBOL_MODULES * symbol.module + clear).toBeLessThanOrEqual(label.height);
    for (const text of ofKind(label, "text")) expect(text.x).toBeGreaterThanOrEqual(right);
  }
});

test("a spare tag has its number alone", () => {
  const label = laidOut({ number, edge: "none" }, PRINTERS["300"]);
  expect(ofKind(label, "text").map(({ text }) => text)).toEqual(["C7K3", "F92C", "XTKK"]);
});

test("a line that reaches the layer edge is a fault with its width and the room, and both lines are told", () => {
  const long = "x".repeat(15);
  const result = layoutTag(
    { number, kindLine: long, sizeLine: long, edge: "grid" },
    PRINTERS["203"],
    measure,
  );
  const fault = { code: "text-does-not-fit", text: long, widthMm: 15 * 0.632 * (20.5 / 8), roomMm: 22.75 };
  expect(result).toEqual({ faults: [fault, fault] });
});

test("without a layer edge the same line has room up to the margin", () => {
  const long = "x".repeat(15);
  const label = laidOut({ number, kindLine: long, edge: "none" }, PRINTERS["203"]);
  const [, , , line] = ofKind(label, "text");
  if (line === undefined) throw new Error("no line");
  expect(line.x + 15 * 0.632 * line.size).toBeLessThanOrEqual((TAG_MM.width - 1.5) * 8);
});

test("what the fonts say cannot be drawn is passed on as it is", () => {
  const fault = { code: "text-has-no-glyph", text: "漢", character: "漢", codePoint: 0x6f22 } as const;
  const result = layoutTag({ number, kindLine: "漢", edge: "none" }, PRINTERS["203"], (text, face) =>
    face === "line" ? fault : { width: text.length },
  );
  expect(result).toEqual({ faults: [fault] });
});
