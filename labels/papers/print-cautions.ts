/** One sentence to show before the first print of a run, and what it rests on. */
export interface PrintCaution {
  readonly text: string;
  readonly basis: string;
}

/**
 * What has to be settled before a tag goes on a garment. Source: facts, section 5, items 1 to 3. These sentences
 * defer: they name who decides and decide nothing themselves.
 */
export const PRINT_CAUTIONS: readonly PrintCaution[] = [
  {
    text: "Your department's own procedure comes first, then the edition of the standard that it has adopted, then the maker's instructions. Nothing here replaces them.",
    basis: "Department procedure, adopted edition, maker",
  },
  {
    text: "A tag can count as a change to the garment. Before you fix one, have the maker's written approval of its material, its adhesive or stitch, and its place.",
    basis:
      "Washington counts any addition to a garment as a repair that must follow the maker's specification",
  },
  {
    text: "Never put a tag on trim, on a moisture barrier, on the load path of a DRD, or over a maker's label.",
    basis: "Common practice; the maker says where a tag may sit",
  },
  {
    text: "A tag tells which piece this is. It tells nothing about its condition, and reading it is not an inspection.",
    basis: "A scan confirms identity",
  },
];

/** Shown besides when office sheets are chosen. Source: tag facts 4.2. */
export const SHEET_CAUTION: PrintCaution = {
  text: "Office label sheets are for bins, lockers and forms. They are not made for garments, heat or washing.",
  basis: "Own judgement",
};

/** What to do at the printer, shown with the cautions: a scaled print no longer has whole dots. */
export const PRINT_STEPS: readonly string[] = [
  "Print at actual size, not fitted to the page.",
  "Measure the first one with a ruler: a tag is 50 × 25 mm.",
  "Scan each tag back after it is fixed. Only then does it count.",
];
