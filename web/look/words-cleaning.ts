/** Fixed words of cleaning: machines, programmes, limits, loads and what was found in pockets. */
import { listOf } from "./say-lists.ts";

export const CLEANING_WORDS = {
  limits: "Limits for washing and drying programmes",
  limit: {
    "wash temperature, most °F": "Temperature at most, °F",
    "wash temperature, most °C": "Temperature at most, °C",
    "detergent pH, least": "Detergent pH at least",
    "detergent pH, most": "Detergent pH at most",
    "extraction, most G": "Extraction at most, G",
  },
  limitWrong: (least: number, most: number) => `Type a figure from ${least} to ${most}, such as 10.5.`,
  source: "Source of the starting values",

  how: "What was done",
  howCleaned: {
    "preliminary exposure reduction": "On-scene rinse or brush (preliminary exposure reduction)",
    "advanced cleaning": "Advanced cleaning",
    "specialised cleaning": "Specialised cleaning",
    sanitisation: "Sanitisation, of soft goods",
    disinfection: "Disinfection, of hard surfaces",
  },

  programme: "Programme",
  overLimits: "Over the department’s limits.",
  overLimitsNext: "Next: choose another programme, or have the program manager start it with a reason.",
  reasonForLoad: "Why it is started all the same",
  cannotBeTold: (unknown: readonly string[]) =>
    `Not compared with the limits, since it is not on record: ${listOf(unknown)}.`,
  runningSince: (machine: string, when: string) => `A load runs in ${machine} since ${when}.`,
  endedAsProgrammed: "It ended as programmed",
  wasAborted: "The run was aborted",
  cameOut: "It ran already",
  cameOutAbout: "When they came out, at about",
  howSure: "How far that can be off",
  aboutMinutes: (minutes: number) => (minutes < 60 ? `${minutes} minutes` : `${minutes / 60} hours`),

  pockets: "Pockets",
  pocketsNot: "Not looked at",
  pocketsChecked: "Checked",
  wetOrDry: "Wet or dry",
  wet: "Wet",
  dry: "Dry",
  sideOfBench: "This bench stands on",
  sides: { "not said": "Not said", soiled: "The soiled side", clean: "The clean side" },
  sideOfBenchSays:
    "On the clean side, a piece that came in soiled and has no load says so when it is scanned.",
  strayed: (piece: string, ago: string | undefined) =>
    ago ? `${piece} came in soiled ${ago} ago and has no load.` : `${piece} is soiled and has no load.`,
  strayedNext: "Next: take it back to the soiled side, or put it in a load.",
  cleanSide: "This is the clean side.",
  foundProperty: "Found property",
  foundPropertySays: "What people left in their gear, each under a receipt.",
  theProperty: "the receipts",
  foundIn: (piece: string) => `Found in ${piece}`,
  whatWasFound: "What it is, and where it is kept",
  keepIt: "Write a receipt",
  receipt: (number: string) => `Receipt ${number}`,
  receiptWritten: "A receipt was written.",
  printReceipt: "Print the receipt",
  stillKept: "Still kept",
  givenBack: "Given back",
  givenBackOn: (when: string, to: string | undefined) =>
    to ? `Given back ${when}, to ${to}` : `Given back ${when}`,
  giveBack: "Given back to its owner",
  nothingKept: "Nothing is kept.",
  nothingKeptNext: "Look a piece up at the bench, then press Found property.",
  receiptSays: "Found at the gear cage. Its owner gets it back for this receipt.",
  toDryAt: (place: string) => `To dry: ${place}`,
} as const;

interface ProgrammeSaid {
  readonly name: string;
  readonly how?: string;
  readonly temperature?: { readonly degrees: number; readonly scale: string };
  readonly detergentPhTenths?: number;
  readonly extractionRpm?: number;
  readonly extractionG?: number;
  readonly minutes?: number;
}

/** Says a programme in one line: "Turnout gear: advanced cleaning, 105 °F, pH 9.0, 480 rpm = 98.0 G, 45 minutes." */
export function sayProgramme(programme: ProgrammeSaid): string {
  const { temperature, detergentPhTenths: ph, extractionRpm: rpm, extractionG: g, minutes } = programme;
  const parts = [
    programme.how ?? "drying",
    temperature && `${temperature.degrees} °${temperature.scale}`,
    ph === undefined ? undefined : `pH ${(ph / 10).toFixed(1)}`,
    rpm === undefined ? undefined : `${rpm} rpm${g === undefined ? "" : ` = ${g.toFixed(1)} G`}`,
    minutes === undefined ? undefined : `${minutes} minutes`,
  ];
  return `${programme.name}: ${parts.filter(Boolean).join(", ")}.`;
}

/** Says each limit that is passed. */
export function sayOver(
  over: readonly { readonly what: string; readonly is: string; readonly limit: string }[],
): string {
  return over
    .map(({ what, is, limit }) => `${what} ${is}, limit ${limit}.`)
    .join(" ")
    .replace(/^./, (first) => first.toUpperCase());
}
