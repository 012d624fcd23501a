import { drawRulerPagePdf } from "../../labels/draw/draw-ruler-page.ts";
import { drawTagFiles, layoutTags } from "../../labels/draw/draw-tags.ts";
import { SHEETS, type TagMedia } from "../../labels/layout/media.ts";
import { PRINTERS } from "../../labels/layout/printer.ts";
import { spareTagContent, type TagContent, tagContentOfPiece } from "../../labels/layout/tag-content.ts";
import { placeholderNumbers } from "../cases/draw-numbers.ts";
import {
  keepPrintFile,
  keepRunNumbers,
  type PieceToPrint,
  piecesToPrint,
  runNumbers,
  tagsByNumber,
} from "../cases/print-record.ts";
import { runAct } from "../cases/run-act.ts";
import { printTagsAct, reserveTagsAct } from "../cases/tag-acts.ts";
import type { PieceId, Uuid } from "../domain/ids.ts";
import type { TagNumber } from "../domain/tags/tag-number.ts";
import type { JobEnd, JobOrder, JobSetting, PrintChoice } from "./job-order.ts";
import { keepIfItReads, sayPrintRefusals } from "./keep-drawn.ts";
import { sayRefusals } from "./say-refusals.ts";

type DrawTags = Extract<JobOrder, { what: "draw tags" }>;

/** Turns a person's choice into the media that labels are placed on. */
function mediaOf({ stock, used, cutGapMm }: PrintChoice): TagMedia {
  if (stock === "roll") return { media: "roll", cutGapMm };
  if (stock === "single" || stock === "A4" || stock === "Letter") {
    throw new Error(`${stock} is a stock of cards and not of tags.`);
  }
  return { media: "sheet", sheet: SHEETS[stock], used };
}

/**
 * Draws a run of tags. Every label is laid out before the first number is reserved, so that a run is whole or nothing;
 * then numbers are reserved as one act, and each file is read back before it is kept. A run that was cut short keeps
 * its numbers and can be drawn again.
 */
export async function drawTags(order: DrawTags, setting: JobSetting): Promise<JobEnd> {
  const { db, onProgress } = setting;
  if ("again" in order.tags) {
    const numbers = await printable(setting, order.tags.again);
    return drawNumbered(order, numbers, setting);
  }
  const pieces = "pieces" in order.tags ? await piecesToPrint(db, order.tags.pieces) : [];
  const count = "spare" in order.tags ? order.tags.spare : pieces.length;
  onProgress({ step: "laying out", done: 0, total: count });
  const tried = tryLayout(order, count, pieces);
  if (tried) return tried;
  onProgress({ step: "reserving numbers", done: 0, total: count });
  const wanted = "spare" in order.tags ? { spare: order.tags.spare } : { pieces: order.tags.pieces };
  const reserved = await runAct(
    db,
    reserveTagsAct,
    { run: order.about, ...wanted },
    order.envelope,
    setting.now(),
  );
  if ("refusals" in reserved) return sayRefusals(reserved.refusals, setting);
  return drawNumbered(order, await runNumbers(db, order.about), setting);
}

/** Numbers of an earlier run that may be printed again: on no piece, and not void. */
async function printable({ db }: JobSetting, run: Uuid): Promise<TagNumber[]> {
  const tags = await tagsByNumber(db, await runNumbers(db, run));
  return tags
    .filter(({ status }) => status === "reserved" || status === "printed")
    .map(({ number }) => number);
}

/** Lays the run out with numbers that mean nothing, and says whose label does not fit. */
function tryLayout({ choice }: DrawTags, count: number, pieces: readonly PieceToPrint[]): JobEnd | undefined {
  const numbers = placeholderNumbers(count);
  const tags = numbers.map((number, at) => contentOf(number, pieces[at], choice));
  const laidOut = layoutTags({ tags, media: mediaOf(choice), printer: PRINTERS[choice.dpi] });
  if (!("refusals" in laidOut)) return undefined;
  const byNumber = new Map(numbers.map((number, at) => [number, pieces[at]]));
  return sayPrintRefusals(laidOut.refusals, (number) => {
    const piece = byNumber.get(number);
    return piece && wordsOf(piece);
  });
}

function contentOf(number: TagNumber, piece: PieceToPrint | undefined, { words }: PrintChoice): TagContent {
  return piece ? tagContentOfPiece(number, piece, words) : spareTagContent(number);
}

function wordsOf({ kind, serial, modelName }: PieceToPrint): string {
  const more = [modelName, serial && `serial ${serial}`].filter((word) => word !== undefined);
  return [kind.name, ...more].join(", ");
}

async function drawNumbered(
  order: DrawTags,
  numbers: readonly TagNumber[],
  setting: JobSetting,
): Promise<JobEnd> {
  const { db, onProgress } = setting;
  const { about: run, choice } = order;
  await keepRunNumbers(db, run, numbers);
  const tags = await contentsOf(numbers, choice, setting);
  const [media, printer] = [mediaOf(choice), PRINTERS[choice.dpi]];
  const laidOut = layoutTags({ tags, media, printer });
  if ("refusals" in laidOut) return sayPrintRefusals(laidOut.refusals, () => undefined);
  onProgress({ step: "drawing", done: 0, total: numbers.length });
  let n = 0;
  for await (const { bytes, start, end } of drawTagFiles(laidOut.labels, media, printer)) {
    n += 1;
    const reason = await keepIfItReads(setting, run, { n, bytes, numbers: numbers.slice(start, end) });
    if (reason) return { reasons: [reason] };
    onProgress({ step: "drawing", done: end, total: numbers.length });
  }
  if (media.media === "sheet") {
    const bytes = await drawRulerPagePdf(media.sheet, printer);
    await keepPrintFile(db, run, { n: n + 1, count: 0, bytes });
  }
  return { done: true };
}

/** Numbers say what their pieces say now: a label that was corrected since its number was reserved is printed corrected. */
async function contentsOf(
  numbers: readonly TagNumber[],
  choice: PrintChoice,
  { db }: JobSetting,
): Promise<TagContent[]> {
  const tags = await tagsByNumber(db, numbers);
  const meant = [...new Set(tags.flatMap(({ meantFor }) => meantFor ?? []))];
  const pieces = new Map<PieceId, PieceToPrint>();
  for (const piece of await piecesToPrint(db, meant)) pieces.set(piece.id, piece);
  return tags.map(({ number, meantFor }) => contentOf(number, meantFor && pieces.get(meantFor), choice));
}

/** Writes down that a run was printed, as the person says. */
export async function markPrinted(
  { about: run, envelope }: Extract<JobOrder, { what: "mark printed" }>,
  setting: JobSetting,
): Promise<JobEnd> {
  const numbers = await runNumbers(setting.db, run);
  setting.onProgress({ step: "writing", done: 0, total: numbers.length });
  const written = await runAct(setting.db, printTagsAct, { run, numbers }, envelope, setting.now());
  return "refusals" in written ? sayRefusals(written.refusals, setting) : { done: true };
}
