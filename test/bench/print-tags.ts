import { drawTagsPdf } from "../../labels/draw/draw-tags.ts";
import { PRINTERS } from "../../labels/layout/printer.ts";
import { tagContentOfPiece } from "../../labels/layout/tag-content.ts";
import { parseMadeOn } from "../../server/domain/time.ts";
import { someNumbers } from "../labels/runs-to-print.ts";

export interface TagPrintFigures {
  readonly tags: number;
  readonly ms: number;
  readonly bytesPerTag: number;
}

/** Budget of one run: 1,000 tags in at most 2 s. */
export const TAG_PRINT_BUDGET_MS = 2_000;

/** Draws liner tags of full content in one call, the slowest look, and tells how long it took. No warm-up. */
export async function measureTagPrint(count = 1_000): Promise<TagPrintFigures> {
  const tags = someNumbers(count).map((number, at) => {
    const madeOn = parseMadeOn(`20${10 + (at % 15)}-0${1 + (at % 9)}`);
    return tagContentOfPiece(number, {
      kind: { name: "Coat liner", family: "structural", layer: "liner" },
      modelName: `K${at % 9}`,
      linerCode: `LK-${at % 7}`,
      size: `${40 + (at % 12)} ${30 + (at % 5)} R`,
      ...(madeOn ? { madeOn } : {}),
    });
  });
  const start = performance.now();
  const run = await drawTagsPdf({ tags, media: { media: "roll", cutGapMm: 0 }, printer: PRINTERS["203"] });
  const ms = performance.now() - start;
  if ("refusals" in run) throw new Error(`not printed: ${JSON.stringify(run.refusals.slice(0, 3))}`);
  const bytes = run.files.reduce((sum, file) => sum + file.bytes.length, 0);
  return { tags: count, ms, bytesPerTag: bytes / count };
}
