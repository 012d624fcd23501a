import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { getDocument } from "pdfjs-dist/legacy/build/pdf.mjs";
import { prepareZXingModule, readBarcodes } from "zxing-wasm/reader";

/** One page as a printer would get it: grey levels 0 (black) to 255, row by row from the top. */
export interface Raster {
  readonly width: number;
  readonly height: number;
  readonly grey: Uint8Array;
}
export type Rasteriser = "pdfjs" | "pdftoppm" | "ghostscript";

// pdf.js draws only on the very copy of the canvas that it brings: another copy has another Path2D.
const canvasOfPdfjs = createRequire(createRequire(import.meta.url).resolve("pdfjs-dist/package.json"))(
  "@napi-rs/canvas",
);
const wasm = readFileSync(fileURLToPath(import.meta.resolve("zxing-wasm/reader/zxing_reader.wasm")));
prepareZXingModule({ overrides: { wasmBinary: wasm.buffer as ArrayBuffer } });

/** The rasterisers of this machine: pdf.js comes with the project, the others are used where installed. */
export const rasterisersHere: readonly Rasteriser[] = [
  "pdfjs",
  ...(isInstalled("pdftoppm") ? (["pdftoppm"] as const) : []),
  ...(isInstalled("gs") ? (["ghostscript"] as const) : []),
];
/** Readers of Data Matrix other than the one that wrote it. */
export const readersHere: readonly ("zxing-wasm" | "libdmtx")[] = [
  "zxing-wasm",
  ...(isInstalled("dmtxread") ? (["libdmtx"] as const) : []),
];

/** Draws every page at the given dots a millimetre: pdf.js in grey, the others in black and white as a printer does. */
export async function rasterise(
  pdf: Uint8Array,
  dotsPerMm: number,
  tool: Rasteriser,
): Promise<readonly Raster[]> {
  const dpi = dotsPerMm * 25.4;
  if (tool === "pdfjs") return withPdfjs(pdf, dpi);
  return inFolder((folder) => {
    const file = join(folder, "print.pdf");
    writeFileSync(file, pdf);
    const out =
      tool === "pdftoppm"
        ? spawnSync("pdftoppm", ["-mono", "-r", String(dpi), file], { maxBuffer: 1 << 30 })
        : spawnSync(
            "gs",
            ["-q", "-dBATCH", "-dNOPAUSE", "-sDEVICE=pbmraw", `-r${dpi}`, "-sOutputFile=%stdout", file],
            { maxBuffer: 1 << 30 },
          );
    if (out.status !== 0) throw new Error(`${tool} failed: ${out.stderr}`);
    return parsePbm(out.stdout);
  });
}

/** Reads the Data Matrices of a page, in no order; libdmtx stops at the first, since it is slow on large pages. */
export async function readDataMatrices(
  raster: Raster,
  reader: "zxing-wasm" | "libdmtx",
): Promise<readonly string[]> {
  if (reader === "libdmtx") return readWithLibdmtx(raster);
  const data = new Uint8ClampedArray(raster.width * raster.height * 4).fill(255);
  for (const [index, level] of raster.grey.entries()) data.fill(level, index * 4, index * 4 + 3);
  const image = { data, width: raster.width, height: raster.height, colorSpace: "srgb" as const };
  const found = await readBarcodes(image as ImageData, { formats: ["DataMatrix"], maxNumberOfSymbols: 255 });
  return found.filter((symbol) => symbol.isValid).map((symbol) => symbol.text);
}

/** The words of each page as a viewer copies them. */
export async function textOfPages(pdf: Uint8Array): Promise<readonly string[]> {
  return eachPage(pdf, async (page) => {
    const { items } = await page.getTextContent();
    return items.map((item) => ("str" in item ? item.str : "")).join("|");
  });
}

export function isDark(raster: Raster, x: number, y: number): boolean {
  return (raster.grey[y * raster.width + x] ?? 255) < 128;
}

type PdfPage = Awaited<ReturnType<Awaited<ReturnType<typeof getDocument>["promise"]>["getPage"]>>;

async function eachPage<T>(pdf: Uint8Array, use: (page: PdfPage) => Promise<T>): Promise<readonly T[]> {
  const task = getDocument({ data: pdf.slice(), verbosity: 0 });
  const document = await task.promise;
  const results: T[] = [];
  for (let number = 1; number <= document.numPages; number += 1)
    results.push(await use(await document.getPage(number)));
  await task.destroy();
  return results;
}

function withPdfjs(pdf: Uint8Array, dpi: number): Promise<readonly Raster[]> {
  return eachPage(pdf, async (page) => {
    const viewport = page.getViewport({ scale: dpi / 72 });
    const width = Math.round(viewport.width);
    const height = Math.round(viewport.height);
    const canvas = canvasOfPdfjs.createCanvas(width, height);
    const canvasContext = canvas.getContext("2d");
    await page.render({ canvas, canvasContext, viewport, background: "white" }).promise;
    const { data } = canvasContext.getImageData(0, 0, width, height);
    return { width, height, grey: Uint8Array.from({ length: width * height }, (_, at) => data[at * 4] ?? 0) };
  });
}

/** Parses a run of binary PBM images, eight dots a byte, as both tools write them: what a thermal head would burn. */
function parsePbm(bytes: Buffer): readonly Raster[] {
  const rasters: Raster[] = [];
  let at = 0;
  while (at < bytes.length) {
    const head = /^P4\s+(?:#[^\n]*\n\s*)*(\d+)\s+(\d+)\s/.exec(bytes.toString("latin1", at, at + 200));
    if (!head) throw new Error("not a binary PBM image");
    const width = Number(head[1]);
    const height = Number(head[2]);
    const start = at + head[0].length;
    const rowBytes = Math.ceil(width / 8);
    const isSet = (x: number, y: number) =>
      ((bytes[start + y * rowBytes + (x >> 3)] ?? 0) >> (7 - (x & 7))) & 1;
    const grey = Uint8Array.from({ length: width * height }, (_, index) =>
      isSet(index % width, Math.floor(index / width)) ? 0 : 255,
    );
    rasters.push({ width, height, grey });
    at = start + rowBytes * height;
  }
  return rasters;
}

function readWithLibdmtx(raster: Raster): readonly string[] {
  return inFolder((folder) => {
    const canvas = canvasOfPdfjs.createCanvas(raster.width, raster.height);
    const context = canvas.getContext("2d");
    const image = context.createImageData(raster.width, raster.height);
    image.data.fill(255);
    for (const [index, level] of raster.grey.entries()) image.data.fill(level, index * 4, index * 4 + 3);
    context.putImageData(image, 0, 0);
    const file = join(folder, "page.png");
    writeFileSync(file, canvas.toBuffer("image/png"));
    const out = spawnSync("dmtxread", ["-n", "-N1", file], { encoding: "utf8" });
    return out.stdout.split("\n").filter((line) => line !== "");
  });
}

function inFolder<T>(use: (folder: string) => T): T {
  const folder = mkdtempSync(join(tmpdir(), "layertrail-print-"));
  try {
    return use(folder);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

function isInstalled(program: string): boolean {
  return spawnSync(program, ["--version"], { stdio: "ignore" }).error === undefined;
}
