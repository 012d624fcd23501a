import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import fontkit, { type Font } from "@pdf-lib/fontkit";
import type { Face } from "../layout/placed-box.ts";

/** One font of a face: bytes to embed and metrics to measure with. */
export interface FontFile {
  readonly path: string;
  readonly bytes: Uint8Array;
  readonly metrics: Font;
}

/**
 * Each face is a chain: the first font that has a glyph draws it. Atkinson Hyperlegible (OFL) leads, as on screen,
 * with a marked zero; it is split by script, so latin-ext follows; DejaVu (Bitstream Vera licence) has Greek and
 * Cyrillic.
 */
const CHAINS: Readonly<Record<Face, readonly string[]>> = {
  number: [...atkinson("mono", 700), dejavu("DejaVuSansMono-Bold")],
  line: [...atkinson("next", 600), dejavu("DejaVuSans-Bold")],
  heading: [...atkinson("next", 700), dejavu("DejaVuSans-Bold")],
  body: [...atkinson("next", 400), dejavu("DejaVuSans")],
};

const loaded = new Map<string, FontFile>();

/** Counts the fonts of a face's chain. */
export function chainLength(face: Face): number {
  return CHAINS[face].length;
}

/** Loads one font of a face's chain, once a process. */
export function fontOfFace(face: Face, index: number): FontFile {
  const specifier = CHAINS[face][index];
  if (specifier === undefined) throw new Error(`face ${face} has no font ${index}`);
  const known = loaded.get(specifier);
  if (known) return known;
  const path = fileURLToPath(import.meta.resolve(specifier));
  const bytes = readFileSync(path);
  const file: FontFile = { path, bytes, metrics: fontkit.create(bytes) };
  loaded.set(specifier, file);
  return file;
}

/** What the PDF library asks to read a font: fonts of the chains are already read, and are not read again. */
export const sharedFontkit = {
  create: (bytes: Uint8Array): Font =>
    [...loaded.values()].find((file) => file.bytes === bytes)?.metrics ?? fontkit.create(bytes),
};

function atkinson(family: "mono" | "next", weight: number): readonly string[] {
  return ["latin", "latin-ext"].map(
    (script) =>
      `@fontsource/atkinson-hyperlegible-${family}/files/atkinson-hyperlegible-${family}-${script}-${weight}-normal.woff`,
  );
}

function dejavu(name: string): string {
  return `dejavu-fonts-ttf/ttf/${name}.ttf`;
}
