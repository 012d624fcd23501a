/** The garments that are drawn nested: half polygons of shell and liner, the strap of a DRD, trim. From the look's figure table. */
import {
  mirror,
  offsetInward,
  outlinePath,
  outlinePoints,
  type Point,
  readHalf,
  roundCorners,
} from "./garment-geometry.ts";

export type GarmentShape = "coat" | "pants";

export type GarmentOutlines = {
  readonly width: number;
  readonly height: number;
  readonly cx: number;
  readonly shell: string;
  readonly liner: string;
  /** Where the stitch runs that joins liner and shell: midway between the two outlines. */
  readonly stitch: string;
  readonly stitchPoints: readonly Point[];
  /** Reflective trim, centre lines of bands 17 wide; clipped to the shell. */
  readonly trim: string;
};

const LINER_INSET = 12;

const COAT_SHELL =
  "230,40 · 262,28,6 · 278,66,10 · 338,90,28 · 368,122,30 · 444,312,8 · 386,336,8 · 344,236,10 · 352,420,10 · 230,424";
const COAT_LINER =
  "230,78 · 268,78,10 · 340,102,26 · 364,126,26 · 432,294,8 · 382,314,8 · 340,208,8 · 346,410,8 · 230,414";
const PANTS_SHELL = "130,18 · 190,18,4 · 190,48,2 · 214,150,60 · 242,402,8 · 160,406,8 · 130,174,8";
const PANTS_LINER = "130,46 · 192,46,4 · 212,150,60 · 238,394,6 · 164,398,6 · 130,158,8";

const OUTLINES: Record<GarmentShape, GarmentOutlines> = {
  coat: outlines(460, 440, COAT_SHELL, COAT_LINER, 11, "M80 372H380M12 262L102 297M448 262L358 297"),
  pants: outlines(260, 420, PANTS_SHELL, PANTS_LINER, 9.5, "M0 352H260"),
};

/** Gives the outlines of a garment in its own units (coat 460 × 440, pants 260 × 420). */
export function garmentOutlines(shape: GarmentShape): GarmentOutlines {
  return OUTLINES[shape];
}

/** The strap: a loop round each upper arm, the bar between them, the way up the back, the pull at the neck. */
export const DRD_PATH =
  "M166 148C130 138 106 158 108 190C110 222 136 232 154 218C172 204 176 176 166 148Z" +
  "M294 148C330 138 354 158 352 190C350 222 324 232 306 218C288 204 284 176 294 148Z" +
  "M166 148H294M230 148V104M230 104C216 96 214 66 230 66C246 66 244 96 230 104Z";

function outlines(
  width: number,
  height: number,
  shellHalf: string,
  linerHalf: string,
  stitchOut: number,
  trim: string,
): GarmentOutlines {
  const cx = width / 2;
  const shell = roundCorners(mirror(readHalf(shellHalf), cx));
  const liner = offsetInward(roundCorners(mirror(readHalf(linerHalf), cx)), LINER_INSET);
  const stitch = offsetInward(liner, -stitchOut);
  return {
    width,
    height,
    cx,
    shell: outlinePath(shell),
    liner: outlinePath(liner),
    stitch: outlinePath(stitch),
    stitchPoints: outlinePoints(stitch),
    trim,
  };
}
