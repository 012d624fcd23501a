import { deflateSync } from "node:zlib";
import { PDFDocument, type PDFFont, PDFName, PDFRawStream, PrintScaling } from "pdf-lib";
import type { Face, PlacedPage } from "../layout/placed-box.ts";
import type { Printer } from "../layout/printer.ts";
import { fontOfFace, sharedFontkit } from "./font-files.ts";
import { type EncodeText, writePage } from "./page-stream.ts";
import { splitRuns } from "./text-runs.ts";

/**
 * Draws pages into one PDF. The same pages give the same bytes: no clock and no randomness goes in. Fonts are
 * embedded as subsets, and viewers are asked not to scale, since a scaled module is no longer whole dots.
 */
export async function writePdf(
  pages: readonly PlacedPage[],
  printer: Printer,
  title: string,
): Promise<Uint8Array> {
  const document = await PDFDocument.create({ updateMetadata: false });
  document.registerFontkit(sharedFontkit);
  document.setTitle(title, { showInWindowTitleBar: true });
  document.setLanguage("en");
  document.catalog.getOrCreateViewerPreferences().setPrintScaling(PrintScaling.None);
  const fonts = await embedFonts(document, pages);
  const scale = 72 / (25.4 * printer.dotsPerMm);
  for (const placed of pages) {
    const page = document.addPage([placed.width * scale, placed.height * scale]);
    const content = compressed(document, writePage(placed, printer, fonts.encode));
    page.node.set(PDFName.of("Contents"), document.context.register(content));
    page.node.set(PDFName.of("Resources"), fonts.resources);
  }
  return document.save({ useObjectStreams: true });
}

/** Compresses with Node's own zlib: the library's is five times slower. */
function compressed(document: PDFDocument, operators: string): PDFRawStream {
  const bytes = deflateSync(Buffer.from(operators, "latin1"));
  return PDFRawStream.of(document.context.obj({ Length: bytes.length, Filter: "FlateDecode" }), bytes);
}

/** Embeds the fonts that these pages use and no other; all pages share one resource dictionary. */
async function embedFonts(document: PDFDocument, pages: readonly PlacedPage[]) {
  const named = new Map<string, { readonly name: string; readonly font: PDFFont }>();
  for (const { face, font } of fontsUsed(pages)) {
    const file = fontOfFace(face, font);
    if (!named.has(file.path)) {
      const embedded = await document.embedFont(file.bytes, { subset: true });
      named.set(file.path, { name: `F${named.size + 1}`, font: embedded });
    }
  }
  /** Glyphs character by character, as they are measured: no font rule may join or replace them. */
  const glyphs = new Map<string, string>();
  const hexOf = (character: string, key: string, font: PDFFont) => {
    const known = glyphs.get(key + character);
    if (known !== undefined) return known;
    const hex = font.encodeText(character).asString();
    glyphs.set(key + character, hex);
    return hex;
  };
  const encode: EncodeText = ({ text, face }) => {
    const found = splitRuns(text, face);
    if ("code" in found) throw new Error(`a text with a fault reached the drawing: ${found.code}`);
    return found.runs.map((run) => {
      const used = named.get(fontOfFace(face, run.font).path);
      if (used === undefined) throw new Error(`font ${run.font} of face ${face} is not embedded`);
      const hex = [...run.text].map((character) => hexOf(character, used.name, used.font)).join("");
      return { font: used.name, hex, width: run.width };
    });
  };
  const dictionary = Object.fromEntries([...named.values()].map(({ name, font }) => [name, font.ref]));
  const resources = document.context.register(document.context.obj({ Font: dictionary }));
  return { encode, resources };
}

function fontsUsed(pages: readonly PlacedPage[]): readonly { readonly face: Face; readonly font: number }[] {
  const used = new Map<string, { readonly face: Face; readonly font: number }>();
  for (const page of pages)
    for (const { label } of page.labels)
      for (const box of label.boxes) {
        if (box.box !== "text") continue;
        const found = splitRuns(box.text, box.face);
        if ("code" in found) continue;
        for (const { font } of found.runs) used.set(`${box.face} ${font}`, { face: box.face, font });
      }
  return [...used.values()].sort((a, b) => (`${a.face}${a.font}` < `${b.face}${b.font}` ? -1 : 1));
}
