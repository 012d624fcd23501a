import fs from "node:fs";
import { SHEETS, type SheetName } from "../../../labels/layout/media.ts";
import { PRINTERS, type PrinterName } from "../../../labels/layout/printer.ts";
import { PRINT_CAUTIONS, PRINT_STEPS, SHEET_CAUTION } from "../../../labels/papers/print-cautions.ts";
import { drawId } from "../../cases/import-register.ts";
import {
  findPiecesByWords,
  findRun,
  insertRun,
  listUntagged,
  printFileBytes,
} from "../../cases/print-record.ts";
import { SYSTEM_ACCOUNT } from "../../cases/system-account.ts";
import { type PieceId, parseUuid, type Uuid } from "../../domain/ids.ts";
import type { JobEnd, JobSetting, PrintChoice, TagStock, TagsWanted } from "../../jobs/job-order.ts";
import { drawTags, markPrinted } from "../../jobs/run-tags.ts";
import { envelopeHere, settingHere } from "../act-by-command-line.ts";
import {
  BadInput,
  type Command,
  EXIT,
  type Given,
  type House,
  type Outcome,
  withDatabase,
} from "../command.ts";
import { PROGRAM } from "../read-arguments.ts";

const MOST_TAGS = 10_000;
const STOCKS: readonly string[] = ["roll", ...Object.keys(SHEETS)];
const WORDS = ["all", "without the model", "number alone"] as const;

export const tagsCommand: Command = {
  name: "tags",
  summary: "Reserve numbers and draw tags as PDF.",
  arguments: [],
  options: {
    spare: { type: "string", value: "NUMBER", says: "so many spare tags, with the number alone" },
    pieces: {
      type: "string",
      value: "FILE",
      says: "a tag for each piece of a list, one a line: serial, old number or id",
    },
    untagged: { type: "boolean", says: "a tag for each piece that carries no live one" },
    out: { type: "string", value: "FILE.pdf", says: "where to write; a further file for each 1,000 tags" },
    stock: { type: "string", value: "STOCK", says: `${STOCKS.join(", ")}; roll if not said` },
    dpi: { type: "string", value: "DPI", says: `${Object.keys(PRINTERS).join(", ")}; 203 if not said` },
    used: { type: "string", value: "NUMBER", says: "places of the first sheet that are empty already" },
    words: { type: "string", value: "WORDS", says: `${WORDS.join(", ")}; all if not said` },
    "cautions-read": { type: "boolean", says: "the cautions are read; without it they are said" },
    printed: {
      type: "string",
      value: "RUN",
      says: "say instead that the tags of a run came out of the printer",
    },
  },
  details: [
    "Every symbol is read back from the file before it is written. A tag counts only when it was scanned back after",
    `fixing, and that only after its run was said to be printed: ${PROGRAM} tags --printed RUN.`,
  ],
  async run(given, house) {
    const printed = given.text("printed");
    if (printed !== undefined) return sayPrinted(printed, house);
    const out = readOut(given);
    const choice = readChoice(given);
    if (!given.isSet("cautions-read")) return sayCautions(choice);
    return withDatabase(house, { mayBeNew: false }, async (open) => {
      const setting = settingHere(open, house);
      const tags = await readWanted(given, setting);
      return drawTo(out, tags, choice, setting, house);
    });
  },
};

function readOut(given: Given): string {
  const out = given.text("out");
  if (!out) throw new BadInput("tags needs --out FILE.pdf.");
  if (fs.existsSync(out)) throw new BadInput(`${out} is there already. Name a new file, or remove that one.`);
  return out;
}

function readChoice(given: Given): PrintChoice {
  const stock = given.text("stock") ?? "roll";
  const known = ["roll", ...(Object.keys(SHEETS) as SheetName[])].find((each) => each === stock);
  if (!known) throw new BadInput(`--stock takes ${STOCKS.join(", ")}.`);
  const dpi = (Object.keys(PRINTERS) as PrinterName[]).find((each) => each === (given.text("dpi") ?? "203"));
  if (!dpi) throw new BadInput(`--dpi takes ${Object.keys(PRINTERS).join(", ")}.`);
  const words = WORDS.find((each) => each === (given.text("words") ?? "all"));
  if (!words) throw new BadInput(`--words takes ${WORDS.join(", ")}.`);
  return { stock: known as TagStock, dpi, words, used: readCount(given, "used") ?? 0, cutGapMm: 0 };
}

function readCount(given: Given, option: string): number | undefined {
  const text = given.text(option);
  if (text === undefined) return undefined;
  if (!/^\d{1,6}$/.test(text)) throw new BadInput(`--${option} takes a whole number.`);
  return Number(text);
}

async function readWanted(given: Given, { db }: JobSetting): Promise<TagsWanted> {
  const spare = readCount(given, "spare");
  const file = given.text("pieces");
  const ways = [spare !== undefined, file !== undefined, given.isSet("untagged")].filter(Boolean).length;
  if (ways !== 1) throw new BadInput("tags needs one of --spare, --pieces and --untagged.");
  if (spare !== undefined) {
    if (spare < 1 || spare > MOST_TAGS) throw new BadInput(`--spare takes 1 to ${MOST_TAGS}.`);
    return { spare };
  }
  const pieces =
    file === undefined
      ? (await listUntagged(db, { limit: MOST_TAGS })).map(({ id }) => id)
      : await readPieces(file, db);
  if (pieces.length === 0) throw new BadInput("No piece is in the list.");
  if (pieces.length > MOST_TAGS) throw new BadInput(`At most ${MOST_TAGS} tags are drawn in one run.`);
  return { pieces };
}

/** Reads a list of pieces, one a line. All lines that name none or several are told at once. */
async function readPieces(file: string, db: JobSetting["db"]): Promise<PieceId[]> {
  if (!fs.existsSync(file)) throw new BadInput(`There is no file ${file}.`);
  const lines = fs
    .readFileSync(file, "utf8")
    .replace(/^\ufeff/, "")
    .split(/\r\n|\n|\r/)
    .map((line) => line.trim());
  const asked = lines.filter((line) => line !== "");
  const found = await findPiecesByWords(db, asked);
  const pieces: PieceId[] = [];
  const faults: string[] = [];
  for (const line of asked) {
    const ids = found.get(line.toLowerCase()) ?? [];
    const [only] = ids;
    if (only && ids.length === 1) pieces.push(only);
    else faults.push(`"${line}" ${ids.length === 0 ? "names no piece" : `names ${ids.length} pieces`}`);
  }
  if (faults.length > 0) throw new BadInput(`${file}: ${faults.slice(0, 20).join("; ")}.`);
  return [...new Set(pieces)];
}

function sayCautions({ stock }: PrintChoice): Outcome {
  const cautions = [...PRINT_CAUTIONS, ...(stock === "roll" ? [] : [SHEET_CAUTION])].map(({ text }) => text);
  return {
    code: EXIT.found,
    lines: [...cautions, ...PRINT_STEPS, "Nothing was drawn. Next: add --cautions-read."],
    json: { isDrawn: false, cautions, steps: PRINT_STEPS },
  };
}

async function drawTo(
  out: string,
  tags: TagsWanted,
  choice: PrintChoice,
  setting: JobSetting,
  house: House,
): Promise<Outcome> {
  const run = drawId<Uuid>(house.now());
  const count = "spare" in tags ? tags.spare : "pieces" in tags ? tags.pieces.length : 0;
  const { stock, words } = choice;
  const record = { id: run, by: SYSTEM_ACCOUNT, what: "tags", stock, words, count } as const;
  await insertRun(setting.db, { ...record, dpi: Number(choice.dpi) });
  const order = { what: "draw tags", about: run, tags, choice, envelope: envelopeHere(house.now()) } as const;
  const end = await drawTags(order, setting);
  if ("reasons" in end) return sayReasons(end, { run });
  const { files = [], count: drawn = 0 } = (await findRun(setting.db, run)) ?? {};
  const names: string[] = [];
  for (const { n } of files) {
    const name = n === 1 ? out : out.replace(/(\.pdf)?$/i, (ending) => `-${n}${ending}`);
    const bytes = await printFileBytes(setting.db, run, n);
    if (bytes) fs.writeFileSync(name, bytes, { flag: "wx" });
    names.push(name);
  }
  return {
    code: EXIT.ok,
    lines: [
      `${drawn} tags drawn and read back: ${names.join(", ")}.`,
      ...PRINT_STEPS,
      `When they came out of the printer: ${PROGRAM} tags --printed ${run}`,
    ],
    json: { isDrawn: true, run, tags: drawn, files: names },
  };
}

function sayPrinted(text: string, house: House): Promise<Outcome> {
  const run = parseUuid(text);
  if (!run) throw new BadInput(`--printed takes the id of a run, and ${text} is none.`);
  return withDatabase(house, { mayBeNew: false }, async (open) => {
    const found = await findRun(open.db, run);
    if (!found) throw new BadInput(`There is no print run ${run}.`);
    const order = { what: "mark printed", about: run, envelope: envelopeHere(house.now()) } as const;
    const end = await markPrinted(order, settingHere(open, house));
    if ("reasons" in end) return sayReasons(end, { run });
    return {
      code: EXIT.ok,
      lines: [`${found.count} tags are printed.`],
      json: { run, printed: found.count },
    };
  });
}

function sayReasons(end: Extract<JobEnd, { reasons: unknown }>, json: object): Outcome {
  return {
    code: EXIT.found,
    lines: end.reasons.map(({ what, why, next }) => `${what} ${why} Next: ${next}`),
    json: { ...json, isDrawn: false, reasons: end.reasons },
  };
}
