import { TAG_MM } from "./tag-label.ts";

/** A sheet of labels as pure geometry, in millimetres; a department may measure and enter its own. */
export interface SheetGeometry {
  readonly name: string;
  readonly paper: PaperName;
  readonly columns: number;
  readonly rows: number;
  readonly labelWidthMm: number;
  readonly labelHeightMm: number;
  readonly pitchXMm: number;
  readonly pitchYMm: number;
  readonly leftMm: number;
  readonly topMm: number;
}
export type PaperName = "A4" | "Letter";

/** Source: ISO 216 for A4; 8.5 × 11 inch for Letter. */
export const PAPERS: Readonly<Record<PaperName, { widthMm: number; heightMm: number }>> = {
  A4: { widthMm: 210, heightMm: 297 },
  Letter: { widthMm: 215.9, heightMm: 279.4 },
};

/**
 * The common office sheets on which a 50 × 25 mm tag fits. Source: tag facts 4.2, from memory: print the ruler page
 * and measure before a run. Office sheets are for bins, lockers and forms, not for garments.
 */
export const SHEETS = {
  "A4 3 × 7": sheet("A4 3 × 7", "A4", [3, 7], [63.5, 38.1], [66, 38.1], [7.2, 15.1]),
  "A4 3 × 8": sheet("A4 3 × 8", "A4", [3, 8], [70, 37], [70, 37], [0, 0.5]),
  "Letter 3 × 10": sheet("Letter 3 × 10", "Letter", [3, 10], [66.7, 25.4], [69.9, 25.4], [4.8, 12.7]),
} as const satisfies Record<string, SheetGeometry>;
export type SheetName = keyof typeof SHEETS;

/** Where tags are printed: one page a tag on a roll, or sheets whose first `used` places are already empty. */
export type TagMedia =
  | { readonly media: "roll"; readonly cutGapMm: number }
  | { readonly media: "sheet"; readonly sheet: SheetGeometry; readonly used: number };

export type MediaFault =
  | {
      readonly code: "label-too-small";
      readonly sheet: string;
      readonly widthMm: number;
      readonly heightMm: number;
    }
  | { readonly code: "labels-leave-the-paper"; readonly sheet: string; readonly paper: PaperName }
  | {
      readonly code: "sheet-used-up";
      readonly sheet: string;
      readonly used: number;
      readonly places: number;
    };

/** Checks that a tag fits the media. Returns every fault; none for a roll. */
export function faultsOfMedia(media: TagMedia): readonly MediaFault[] {
  if (media.media === "roll") return [];
  const { sheet: its, used } = media;
  const paper = PAPERS[its.paper];
  const places = its.columns * its.rows;
  const rightMm = its.leftMm + (its.columns - 1) * its.pitchXMm + its.labelWidthMm;
  const bottomMm = its.topMm + (its.rows - 1) * its.pitchYMm + its.labelHeightMm;
  const isOnPaper =
    its.leftMm >= 0 && its.topMm >= 0 && rightMm <= paper.widthMm && bottomMm <= paper.heightMm;
  const isLarge = its.labelWidthMm >= TAG_MM.width && its.labelHeightMm >= TAG_MM.height;
  const faults: MediaFault[] = [];
  if (!isLarge)
    faults.push({
      code: "label-too-small",
      sheet: its.name,
      widthMm: its.labelWidthMm,
      heightMm: its.labelHeightMm,
    });
  if (!isOnPaper) faults.push({ code: "labels-leave-the-paper", sheet: its.name, paper: its.paper });
  if (!Number.isInteger(used) || used < 0 || used >= places)
    faults.push({ code: "sheet-used-up", sheet: its.name, used, places });
  return faults;
}

function sheet(
  name: string,
  paper: PaperName,
  [columns, rows]: readonly [number, number],
  [labelWidthMm, labelHeightMm]: readonly [number, number],
  [pitchXMm, pitchYMm]: readonly [number, number],
  [leftMm, topMm]: readonly [number, number],
): SheetGeometry {
  return { name, paper, columns, rows, labelWidthMm, labelHeightMm, pitchXMm, pitchYMm, leftMm, topMm };
}
