/** Harrow County Fire & Rescue: an invented department. Every name, maker and model in it is made up. */
export const DEPARTMENT = "Harrow County Fire & Rescue";
export const TIME_ZONE = "America/Chicago";
export const OFFSET_MIN = -360;

export const STATIONS = ["Station 1", "Station 2", "Station 3"] as const;
export const SHIFTS = ["A", "B", "C"] as const;

/** Places with what they are, how they carry, their side, and the place that they are in. */
export const PLACES = [
  ["Gear cage", "cage", "apart"],
  ["Station 1", "station", "apart"],
  ["Station 2", "station", "apart"],
  ["Station 3", "station", "apart"],
  ["Receiving shelf", "shelf", "shared", "Gear cage", "clean"],
  ["Bench 1", "bench", "shared", "Gear cage"],
  ["Isolation rack", "isolation", "shared", "Gear cage", "soiled"],
  ["Intake rack", "rack", "shared", "Gear cage", "soiled"],
  ["Washer 1", "washer", "closed", "Gear cage", "soiled"],
  ["Washer 2", "washer", "closed", "Gear cage", "soiled"],
  ["Dryer 1", "dryer", "closed", "Gear cage", "clean"],
  ["Dryer 2", "dryer", "closed", "Gear cage", "clean"],
  ["Drying room", "drying", "apart", "Gear cage", "soiled"],
  ["Drying rack", "rack", "shared", "Gear cage", "clean"],
  ["Rack A1", "rack", "shared", "Gear cage", "clean"],
  ["Rack A2", "rack", "shared", "Gear cage", "clean"],
  ["Rack B1", "rack", "shared", "Gear cage", "clean"],
  ["Rack B2", "rack", "shared", "Gear cage", "clean"],
  ["Rack C1", "rack", "shared", "Gear cage", "clean"],
  ["Rack C2", "rack", "shared", "Gear cage", "clean"],
  ["Station 1 gear room", "rack", "apart", "Station 1"],
  ["Station 2 gear room", "rack", "apart", "Station 2"],
  ["Station 3 gear room", "rack", "apart", "Station 3"],
] as const;

/** The people who work with the gear, and the names that they sign in with. */
export const STAFF = [
  ["Odile Verrill", "program manager", "odile", "1701"],
  ["Inez Calloway", "technician", "inez", "2402"],
  ["Tobin Achterberg", "technician", "tobin", "3303"],
  ["Maren Oakhollow", "inspector", "maren", "4204"],
  ["Aldous Pennark", "company officer", "aldous", "5105"],
  ["Rosalind Thackwood", "reader", "rosalind", "6006"],
] as const;

const GIVEN = [
  ...[
    "Corwin",
    "Mirela",
    "Petra",
    "Hollis",
    "Beatrix",
    "Leander",
    "Sunniva",
    "Garrick",
    "Ottilie",
    "Fenwick",
  ],
  ...["Isolde", "Barnaby", "Cosima", "Edmer", "Tamsin", "Roald"],
];
const FAMILY = [
  ...["Bask", "Ferro", "Oxholm", "Underhay", "Quillfeather", "Marrable", "Stavedale", "Winterbow"],
  ...["Holmgarth", "Pellinore", "Crossthwaite", "Dunmarrow"],
];

/** Gives 48 members with names of their own; the first are known from the papers of the look. */
export function memberNames(): readonly string[] {
  const known = ["Corwin Bask", "Mirela Ferro", "Petra Oxholm"];
  const made: string[] = [];
  for (let index = 0; known.length + made.length < 48; index++) {
    const name = `${GIVEN[index % GIVEN.length]} ${FAMILY[(index * 5 + Math.floor(index / 3)) % FAMILY.length]}`;
    if (!known.includes(name) && !made.includes(name)) made.push(name);
  }
  return [...known, ...made];
}

export interface DemoModel {
  readonly maker: string;
  readonly name: string;
  readonly kind: string;
  readonly layers: readonly string[];
  readonly takes: readonly { readonly layerKind: string; readonly takesLinerCode: string }[];
}

/** The model table: shells with the codes that they take. */
export const MODELS: readonly DemoModel[] = [
  shell("Tarnholt", "K7", "coat", "LK-2", "D-1"),
  shell("Tarnholt", "K7", "pants", "LP-2"),
  shell("Brindlewick", "Ridge 4", "coat", "R4-C", "R4-D"),
  shell("Brindlewick", "Ridge 4", "pants", "R4-P"),
];

function shell(
  maker: string,
  name: string,
  garment: "coat" | "pants",
  liner: string,
  drd?: string,
): DemoModel {
  const layers = garment === "coat" ? ["coat-liner", "drd"] : ["pants-liner"];
  const takes = [{ layerKind: `${garment}-liner`, takesLinerCode: liner }];
  if (drd) takes.push({ layerKind: "drd", takesLinerCode: drd });
  return { maker, name, kind: `${garment}-shell`, layers, takes };
}

export const COAT_SIZES = ["40 32 R", "42 32 R", "44 32 R", "46 32 R", "48 34 R", "44 32 L"] as const;
export const PANTS_SIZES = ["32 30 R", "34 30 R", "36 32 R", "38 32 R", "40 32 L"] as const;
export const PATTERNS = ["M", "M", "M", "W"] as const;

/** Makers of what stands alone. */
export const SINGLE = {
  hood: { maker: "Corrin Mills", modelName: "Shroud 2", size: "one size" },
  helmet: { maker: "Osgar Pell", modelName: "Dome T", size: "one size" },
  "glove-pair": { maker: "Corrin Mills", modelName: "Grip 5", size: "L" },
  "boot-pair": { maker: "Osgar Pell", modelName: "Tread 9", size: "10 W" },
} as const;
export type SingleKind = keyof typeof SINGLE;
