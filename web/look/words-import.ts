/** The fixed words of the page that brings in a file. They stand beside words.ts, in its style. */
import { countOf } from "./words.ts";

type What = "pieces" | "models" | "members";

export const IMPORT_WORDS = {
  saysChoose: "Choose a CSV file. It is read first; nothing is written before you say so.",
  saysPreview: "Nothing is written yet. Rows with a problem stay out until they are mended.",
  saysWorking: "The file is being worked on. You can leave this page and come back.",
  saysDone: "The rows are on record, each as imported.",

  whatLegend: "What is in the file",
  whats: { pieces: "Pieces", models: "Models and what they take", members: "Members" },
  whatRows: {
    pieces: (count: number) => countOf(count, "piece", "pieces"),
    models: (count: number) => countOf(count, "model", "models"),
    members: (count: number) => countOf(count, "member", "members"),
  },
  file: "The file",
  chooseFile: "Choose a file",
  fileNote:
    "CSV with commas, semicolons or tabs, in UTF-8 or Windows-1252, 20 MB and 50,000 rows at most. Save a workbook as CSV first.",
  tooLarge: (megabytes: string) => `The file has ${megabytes} MB and 20 MB is the most.`,
  tooLargeNext: "Split it into files of fewer rows.",
  notRead: "The file was not read.",
  readIt: "Read the file",
  template: "Save an empty template",
  earlier: "Files that were brought in",
  noEarlier: "No file was brought in yet.",
  broughtBy: (by: string, when: string) => `by ${by}, ${when}`,
  rowsIn: (accepted: number, parked: number) =>
    parked > 0 ? `${countOf(accepted, "row", "rows")}, ${parked} parked` : countOf(accepted, "row", "rows"),
  known: "This file was brought in before.",
  knownSays: (by: string, when: string, rows: string) =>
    `${by} brought it in ${when}: ${rows}. Nothing is changed a second time. To add rows, bring in a file of these rows alone.`,

  steps: {
    waiting: "Other work goes first. This waits its turn.",
    starting: "Starting.",
    "reading the file": "Reading the file.",
    "comparing with the register": "Comparing with the register.",
    "keeping the preview": "Keeping what was read.",
    writing: "Writing all rows as one act.",
  } as Readonly<Record<string, string>>,
  stopIt: "Stop",
  stopped: "Stopped. Nothing was written.",
  notBroughtIn: "Not brought in.",
  askAgain: "Look again",

  reads: (accepted: number, rows: number) =>
    rows === 0
      ? "The file has no rows under its headers."
      : `${accepted} of ${countOf(rows, "row", "rows")} can come in.`,
  parkedSay: (parked: number) =>
    `${countOf(parked, "row stays", "rows stay")} out. Mend them in the parked file and bring that one in.`,
  countsSay: (fresh: number, changed: number, same: number) =>
    [`${fresh} new`, `${changed} said anew`, `${same} already so`].join(", "),
  columns: "Columns",
  columnsSay: "Which column of the file holds what. Change it, then read the file again.",
  field: "Holds",
  column: "Column of the file",
  howToWrite: "How it is written",
  noColumn: "No column",
  columnAt: (at: number, header: string) => `${at + 1}: ${header || "(no header)"}`,
  missing: (fields: string) => `No column holds ${fields}. No row was read.`,
  missingNext: "Choose its column below, then read the file again.",
  readAgain: "Read the file again",
  unused: (headers: string) => `Not read: ${headers}.`,

  problems: "What keeps rows out",
  problem: "Problem",
  rows: "Rows",
  firstRow: "First row",
  everyProblem: "Every problem by row",
  row: "Row",
  written: "Written there",
  more: "Show more",
  saveParked: "Save the parked rows",

  missingPlaces: "Places that the register lacks",
  missingPlacesSay: "Rows name these places. Make them here, and the file is read again.",
  placeSort: (name: string) => `What ${name} is`,
  makePlaces: (count: number) => `Make ${countOf(count, "place", "places")}`,
  sorts: {
    station: "Station",
    cage: "Cage",
    rack: "Rack",
    shelf: "Shelf",
    locker: "Locker",
    bench: "Bench",
    bin: "Bin",
    bag: "Bag",
    vehicle: "Vehicle",
    isolation: "Isolation",
    drying: "Drying room",
    washer: "Washer",
    dryer: "Dryer",
    other: "Other",
  },
  leaveOut: "Do not make it",

  sample: "The first rows as they are read",
  bringIn: (what: What, count: number) => `Bring in ${IMPORT_WORDS.whatRows[what](count)}`,
  nothingToBring: "Bring in: nothing",
  nothingToBringSays: "No row can come in. Mend the file, map its columns, or choose another.",
  evidence:
    "What comes from a file is a list’s word. A label that the file says is read counts as read by the department; nothing else in a file permits anything.",

  done: (what: What, count: number) => `${IMPORT_WORDS.whatRows[what](count)} brought in.`,
  printTags: "Print their tags",
  another: "Bring in another file",
} as const;
