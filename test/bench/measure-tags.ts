import { drawTagsPdf } from "../../labels/draw/draw-tags.ts";
import { PRINTERS } from "../../labels/layout/printer.ts";
import { tagContentOfPiece } from "../../labels/layout/tag-content.ts";
import { parseMadeOn } from "../../server/domain/time.ts";
import { someNumbers } from "../labels/runs-to-print.ts";
import type { Figure, Measured } from "./figures.ts";

const TAGS = 1_000;
const BUDGET_S = 2;

/** Draws liner tags of full content in one call, the slowest look. No warm-up, as in the thread of a print job. */
export async function measureTags(): Promise<Measured> {
  const tags = someNumbers(TAGS).map((number, at) => {
    const madeOn = parseMadeOn(`20${10 + (at % 15)}-0${1 + (at % 9)}`);
    return tagContentOfPiece(number, {
      kind: { name: "Coat liner", family: "structural", layer: "liner" },
      modelName: `K${at % 9}`,
      linerCode: `LK-${at % 7}`,
      size: `${40 + (at % 12)} ${30 + (at % 5)} R`,
      ...(madeOn ? { madeOn } : {}),
    });
  });
  const begun = performance.now();
  const run = await drawTagsPdf({ tags, media: { media: "roll", cutGapMm: 0 }, printer: PRINTERS["203"] });
  const seconds = (performance.now() - begun) / 1_000;
  if ("refusals" in run) throw new Error(`Not printed: ${JSON.stringify(run.refusals.slice(0, 3))}`);
  const bytes = run.files.reduce((sum, file) => sum + file.bytes.length, 0);
  const figure: Figure = {
    ...{ what: `${TAGS} tags drawn as PDF`, value: seconds, unit: "s" },
    target: { is: "at most", value: BUDGET_S },
    note: `${Math.round(bytes / TAGS)} bytes a tag`,
  };
  return { part: "tags", figures: [figure] };
}
