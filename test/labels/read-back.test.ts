import { deflateSync, inflateSync } from "node:zlib";
import { PDFDocument, PDFRawStream } from "pdf-lib";
import { expect, test } from "vitest";
import { readBack } from "../../labels/draw/read-back.ts";
import { SHEETS } from "../../labels/layout/media.ts";
import { PRINTERS } from "../../labels/layout/printer.ts";
import { spareTagContent } from "../../labels/layout/tag-content.ts";
import { drawnCards, drawnTags, someNumbers, tagsOfEachLook } from "./runs-to-print.ts";

const roll = { media: "roll", cutGapMm: 0 } as const;

test("tags of each look are read back from their own file, at 203, 300 and 600 dpi, on a roll and on a sheet", async () => {
  const tags = tagsOfEachLook();
  for (const printer of Object.values(PRINTERS))
    for (const media of [roll, { media: "sheet", sheet: SHEETS["Letter 3 × 10"], used: 2 } as const]) {
      const [pdf = new Uint8Array()] = await drawnTags({ tags, media, printer });
      expect(await readBack(pdf)).toEqual(tags.map(({ number }) => number));
    }
});

test("cards are read back too", async () => {
  const [first, second] = someNumbers(2);
  if (!first || !second) throw new Error("too few numbers");
  const cards = [
    { card: "member", number: first },
    { card: "action", action: "confirm", number: second },
  ] as const;
  const [pdf = new Uint8Array()] = await drawnCards({ cards, media: "A4", printer: PRINTERS["203"] });
  expect(await readBack(pdf)).toEqual([first, second]);
});

test("a file in which one module was drawn otherwise does not read back", async () => {
  const tags = someNumbers(1).map(spareTagContent);
  const [pdf = new Uint8Array()] = await drawnTags({ tags, media: roll, printer: PRINTERS["203"] });
  const document = await PDFDocument.load(pdf, { updateMetadata: false });
  const page = document.getPage(0);
  const stream = page.node.Contents();
  if (!(stream instanceof PDFRawStream)) throw new Error("the page has no stream of its own");
  const operators = inflateSync(stream.getContents()).toString("latin1");
  // A square of one module more, in the middle of the symbol.
  const changed = deflateSync(
    Buffer.from(operators.replace("f*", "80 100 m 88 100 l 88 108 l 80 108 l h\nf*"), "latin1"),
  );
  const { PDFName } = await import("pdf-lib");
  const fresh = PDFRawStream.of(
    document.context.obj({ Length: changed.length, Filter: "FlateDecode" }),
    changed,
  );
  page.node.set(PDFName.of("Contents"), document.context.register(fresh));
  expect(await readBack(await document.save())).toEqual([undefined]);
});

test("1,000 tags are read back within a second of one processor", async () => {
  const tags = someNumbers(1_000).map(spareTagContent);
  const [pdf = new Uint8Array()] = await drawnTags({ tags, media: roll, printer: PRINTERS["203"] });
  const started = process.cpuUsage();
  expect((await readBack(pdf)).length).toBe(1_000);
  const { user, system } = process.cpuUsage(started);
  expect((user + system) / 1000).toBeLessThan(1_000);
});
