import { faultsOfMedia, type TagMedia } from "../layout/media.ts";
import type { PlacedLabel } from "../layout/placed-box.ts";
import type { PrintRefusal } from "../layout/print-refusal.ts";
import type { Printer } from "../layout/printer.ts";
import type { TagContent } from "../layout/tag-content.ts";
import { layoutTag } from "../layout/tag-label.ts";
import { placeTags, tagsPerPage } from "../layout/tag-pages.ts";
import { writePdf } from "./pdf-file.ts";
import { measureText } from "./text-runs.ts";

/** Most tags of one file: larger files took hundreds of megabytes to write and print queues choke on them. */
export const TAGS_PER_FILE = 1_000;

/** One file of a run: its bytes, and which of the run's tags it holds, counted from 0, `end` not included. */
export interface PrintFile {
  readonly bytes: Uint8Array;
  readonly start: number;
  readonly end: number;
}
export type PrintRun =
  | { readonly files: readonly PrintFile[] }
  | { readonly refusals: readonly PrintRefusal[] };

export interface TagRun {
  readonly tags: readonly TagContent[];
  readonly media: TagMedia;
  readonly printer: Printer;
}

/** Draws a run of tags as PDF files of at most 1,000 tags, or says every reason why none of it was drawn. */
export async function drawTagsPdf(run: TagRun): Promise<PrintRun> {
  const laidOut = layoutTags(run);
  if ("refusals" in laidOut) return laidOut;
  const files: PrintFile[] = [];
  for await (const file of drawTagFiles(laidOut.labels, run.media, run.printer)) files.push(file);
  return { files };
}

/** Lays out every tag of a run before the first is drawn, so that a run is whole or nothing. */
export function layoutTags({
  tags,
  media,
  printer,
}: TagRun): { readonly labels: readonly PlacedLabel[] } | { readonly refusals: readonly PrintRefusal[] } {
  const refusals: PrintRefusal[] = [...faultsOfMedia(media)];
  if (tags.length === 0) refusals.push({ code: "nothing-to-print" });
  const seen = new Set<string>();
  const labels: PlacedLabel[] = [];
  for (const tag of tags) {
    if (seen.has(tag.number)) refusals.push({ code: "number-twice", number: tag.number });
    seen.add(tag.number);
    const label = layoutTag(tag, printer, measureText);
    if ("faults" in label)
      refusals.push(...label.faults.map((fault) => ({ ...fault, number: tag.number, on: "tag" as const })));
    else labels.push(label);
  }
  return refusals.length > 0 ? { refusals } : { labels };
}

/** Draws laid-out tags file by file, so that a job can show progress and stop between files. Full sheets stay together. */
export async function* drawTagFiles(
  labels: readonly PlacedLabel[],
  media: TagMedia,
  printer: Printer,
): AsyncGenerator<PrintFile> {
  const perPage = tagsPerPage(media);
  const perFile = Math.max(1, Math.floor(TAGS_PER_FILE / perPage)) * perPage;
  let start = 0;
  while (start < labels.length) {
    const used = media.media === "sheet" && start === 0 ? media.used : 0;
    const end = Math.min(labels.length, start + perFile - used);
    const rest: TagMedia = media.media === "sheet" ? { ...media, used } : media;
    const pages = placeTags(labels.slice(start, end), rest, printer);
    yield { bytes: await writePdf(pages, printer, "Layertrail tags"), start, end };
    start = end;
  }
}
