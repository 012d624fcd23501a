import { inflateSync } from "node:zlib";
import { PDFArray, PDFDocument, PDFRawStream } from "pdf-lib";
import { SYMBOL_MODULES } from "../layout/placed-box.ts";
import { readSymbol } from "./read-symbol.ts";
import type { ModuleGrid } from "./symbol-matrix.ts";

/**
 * Reads the symbols of a finished PDF back, in the order in which they stand: each filled outline is taken at the
 * middle of its 16 × 16 modules and decoded. Undefined stands for one that does not read. This looks at the bytes that
 * a printer gets, not at what they were made from.
 */
export async function readBack(pdf: Uint8Array): Promise<readonly (string | undefined)[]> {
  const document = await PDFDocument.load(pdf, { updateMetadata: false });
  return document.getPages().flatMap((page) => {
    const contents = page.node.Contents();
    const streams = contents instanceof PDFArray ? contents.asArray() : [contents];
    return streams.flatMap((stream) =>
      stream instanceof PDFRawStream ? symbolsIn(operatorsOf(stream.getContents())) : [undefined],
    );
  });
}

function operatorsOf(bytes: Uint8Array): string {
  return inflateSync(bytes).toString("latin1");
}

type Edge = readonly [x1: number, y1: number, x2: number, y2: number];

/** Symbols are the only shapes that are filled by the even-odd rule. Where on the page they lie does not matter here. */
function symbolsIn(operators: string): (string | undefined)[] {
  const found: (string | undefined)[] = [];
  for (const part of operators.split(/\bf\*/).slice(0, -1)) {
    const start = part.lastIndexOf("0 g\n");
    found.push(readOutline(part.slice(start + 4)));
  }
  return found;
}

function readOutline(path: string): string | undefined {
  const edges: Edge[] = [];
  let [startX, startY, x, y] = [0, 0, 0, 0];
  let operands: number[] = [];
  for (const token of path.split(/\s+/)) {
    if (token === "m" || token === "l") {
      const [toX = 0, toY = 0] = operands;
      if (token === "m") [startX, startY] = [toX, toY];
      else edges.push([x, y, toX, toY]);
      [x, y] = [toX, toY];
      operands = [];
    } else if (token === "h") edges.push([x, y, startX, startY]);
    else if (token !== "") operands.push(Number(token));
  }
  return edges.length === 0 ? undefined : readSymbol(sampleModules(edges));
}

/**
 * Takes the shape at the middle of each module. The solid borders at the left and below span the whole symbol, so that
 * its extent is that of the outline. Edges are upright or level: the upright ones left of a point are counted.
 */
function sampleModules(edges: readonly Edge[]): ModuleGrid {
  const [xs, ys] = [edges.map(([x]) => x), edges.map(([, y]) => y)];
  const [left, top] = [Math.min(...xs), Math.min(...ys)];
  const [width, height] = [Math.max(...xs) - left, Math.max(...ys) - top];
  const upright = edges.filter(([x1, , x2]) => x1 === x2);
  const dark: boolean[] = [];
  for (let row = 0; row < SYMBOL_MODULES; row += 1) {
    const y = top + ((row + 0.5) / SYMBOL_MODULES) * height;
    const crossed = upright
      .filter(([, y1, , y2]) => y > Math.min(y1, y2) && y < Math.max(y1, y2))
      .map(([x]) => x)
      .sort((a, b) => a - b);
    for (let column = 0; column < SYMBOL_MODULES; column += 1) {
      const x = left + ((column + 0.5) / SYMBOL_MODULES) * width;
      dark.push(crossed.filter((edge) => edge < x).length % 2 === 1);
    }
  }
  return { size: SYMBOL_MODULES, dark };
}
