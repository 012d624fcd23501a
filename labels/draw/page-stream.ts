import type { PlacedBox, PlacedPage } from "../layout/placed-box.ts";
import type { Printer } from "../layout/printer.ts";
import { symbolOfNumber } from "./symbol-matrix.ts";
import { outlineSymbol, type Point } from "./symbol-outline.ts";

/** Gives the operators of a text: font resource name, type size in points, glyphs as a hex string. */
export type EncodeText = (box: Extract<PlacedBox, { box: "text" }>) => readonly {
  readonly font: string;
  readonly hex: string;
  readonly width: number;
}[];

/**
 * Writes one page as PDF operators. One unit is one printer dot and y runs downwards from the top edge, so that
 * every whole number in the layout is a dot edge on paper; text is turned upright again where it stands.
 */
export function writePage(page: PlacedPage, printer: Printer, encode: EncodeText): string {
  const scale = 72 / (25.4 * printer.dotsPerMm);
  const out = [`${exact(scale)} 0 0 ${exact(-scale)} 0 ${exact(page.height * scale)} cm`];
  const write = (boxes: readonly PlacedBox[]) => {
    for (const box of boxes) out.push(writeBox(box, printer.inset, encode));
  };
  write(page.marks);
  for (const { x, y, label } of page.labels) {
    out.push(`q 1 0 0 1 ${x} ${y} cm`);
    write(label.boxes);
    out.push("Q");
  }
  return out.join("\n");
}

function writeBox(box: PlacedBox, inset: number, encode: EncodeText): string {
  switch (box.box) {
    case "symbol": {
      const outlines = outlineSymbol(symbolOfNumber(box.number), box.module, inset);
      return `0 g\n${outlines.map((outline) => polygon(outline, box.x, box.y)).join("\n")}\nf*`;
    }
    case "bar": {
      const [x, y] = [box.x + inset, box.y + inset];
      return `${gray(box)} g ${n(x)} ${n(y)} ${n(box.width - 2 * inset)} ${n(box.height - 2 * inset)} re f`;
    }
    case "strokes":
      return strokes(box);
    case "text":
      return text(box, encode);
  }
}

function polygon(points: readonly Point[], dx: number, dy: number): string {
  return `${points.map(([x, y], index) => `${n(x + dx)} ${n(y + dy)} ${index === 0 ? "m" : "l"}`).join(" ")} h`;
}

function strokes(box: Extract<PlacedBox, { box: "strokes" }>): string {
  const { clip, dash, lines } = box;
  return [
    "q",
    ...(clip ? [`${n(clip.x)} ${n(clip.y)} ${n(clip.width)} ${n(clip.height)} re W n`] : []),
    `${gray(box)} G ${n(box.thick)} w`,
    ...(dash ? [`1 J [${n(dash[0])} ${n(dash[1])}] 0 d`] : []),
    ...lines.map(([x1, y1, x2, y2]) => `${n(x1)} ${n(y1)} m ${n(x2)} ${n(y2)} l`),
    "S Q",
  ].join("\n");
}

function text(box: Extract<PlacedBox, { box: "text" }>, encode: EncodeText): string {
  let x = box.x;
  const parts = encode(box).map(({ font, hex, width }) => {
    const part = `/${font} ${n(box.size)} Tf 1 0 0 -1 ${n(x)} ${n(box.baseline)} Tm <${hex}> Tj`;
    x += width * box.size;
    return part;
  });
  return `BT ${gray(box)} g ${n(box.spacing)} Tc\n${parts.join("\n")}\nET`;
}

function gray(box: { readonly ink: "black" | "white" }): 0 | 1 {
  return box.ink === "black" ? 0 : 1;
}

/** Quarters of a dot, which is what symbols are made of, are written from a table. */
const QUARTERS = Array.from({ length: 4_000 }, (_, quarter) => String(quarter / 4));

/** A thousandth of a dot is far below what any raster shows, and short numbers keep files small. */
function n(value: number): string {
  return QUARTERS[value * 4] ?? String(Math.round(value * 1000) / 1000);
}

/** The scale is written finer: its rounding would add up over a page. */
function exact(value: number): string {
  return value.toFixed(9).replace(/\.?0+$/, "");
}
