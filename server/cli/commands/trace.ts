import fs from "node:fs";
import path from "node:path";
import { writeCsv } from "../../domain/intake/csv-write.ts";
import type { TraceQuestion } from "../../domain/tracing/custody-history.ts";
import { type Microsecond, readMoment, writeMoment } from "../../domain/tracing/moment.ts";
import { type CustodyTable, readCustodyTables } from "../../domain/tracing/read-custody-tables.ts";
import { traceHistory } from "../../domain/tracing/trace-history.ts";
import { writeContacts } from "../../domain/tracing/write-contacts.ts";
import { readLinedRows } from "../../intake/csv-lines.ts";
import { decodeText } from "../../intake/decode-text.ts";
import { sniffSeparator } from "../../intake/sniff-separator.ts";
import { sayFileRefusal } from "../../jobs/file-refusal-words.ts";
import { BadInput, type Command, EXIT, type Given } from "../command.ts";
import { PROGRAM } from "../read-arguments.ts";
import { readNamedFile } from "../read-named-file.ts";

/** Largest file that is read, in bytes: some three million stays. */
const MOST_BYTES = 256 * 1024 * 1024;
const FOLLOWED = ["closed", "shared"] as const;

export const traceCommand: Command = {
  name: "trace",
  summary: "Trace possible contacts through a history kept in CSV files, without a database.",
  arguments: [],
  options: {
    stays: {
      type: "string",
      value: "FILE",
      says: "who had what: piece,holder,from,to (empty to: still there)",
    },
    holders: {
      type: "string",
      value: "FILE",
      says: "holder,carries,cleaned: closed, shared or apart; times parted by semicolons",
    },
    cleanings: { type: "string", value: "FILE", says: "cleanings that end what a piece carried: piece,at" },
    from: {
      type: "string",
      multiple: true,
      value: "PIECE@TIME",
      says: "where the trace starts; give it again for more pieces",
    },
    backward: {
      type: "boolean",
      says: "ask where it may have come from, instead of what may have been reached",
    },
    hops: { type: "string", value: "NUMBER", says: "most steps, piece to holder to piece; else all" },
    until: { type: "string", value: "TIME", says: "the other end of the window, included; else all time" },
    carriers: {
      type: "string",
      value: "LIST",
      says: "which holders are followed: closed,shared (else this), closed or shared; apart never is",
    },
    out: {
      type: "string",
      value: "FILE",
      says: "where the answer is written; a file of that name is replaced",
    },
  },
  details: [
    "Times are ISO 8601 with offset, as 2026-11-12T04:50:00-05:00. Custody runs from `from` up to `to`, but at its last",
    "instant a stay still touches what is there. At one instant departures come first, then cleanings, then arrivals,",
    "and steps of one instant follow each other. PIECE@TIME is split at its last @; where one stay ends as the next",
    "begins, the later is taken. Forward looks from TIME to --until, backward from --until to TIME.",
    "",
    "The answer has the columns piece,arrival,hops,path, sorted by hops, arrival and piece, one row a piece that was",
    "possibly reached; pieces that the trace starts from are left out. Hops, arrival and path are those of the way",
    "with the fewest steps, the earliest of these. Arrival is in UTC; backward it is the latest departure: the last",
    "moment from which it still leads to the start. A path reads in the order of time: piece@TIME > holder@TIME >",
    "piece@TIME > …, each TIME after the last @ of its part, being when that one was reached (backward: the latest",
    "moment). A possible contact is not proof of exposure.",
    "",
    "Bad rows are all listed with their lines; then nothing is written and the exit code is 2.",
  ],
  async run(given) {
    const files = {
      stays: needed(given, "stays"),
      holders: needed(given, "holders"),
      cleanings: given.text("cleanings"),
    };
    const out = needed(given, "out");
    checkOut(out, [files.stays, files.holders, ...(files.cleanings ? [files.cleanings] : [])]);
    const question = readQuestion(given);
    const read = readCustodyTables({
      stays: readTable(files.stays),
      holders: readTable(files.holders),
      ...(files.cleanings ? { cleanings: readTable(files.cleanings) } : {}),
    });
    if ("faults" in read) {
      const lines = read.faults.map(({ file, line, says }) => `${file} line ${line}: ${says}.`);
      const count = `${lines.length} ${lines.length === 1 ? "row is" : "rows are"} not as they should be`;
      throw new BadInput([...lines, `${count}. Nothing was written.`].join("\n"));
    }
    const traced = traceHistory(read.history, question);
    if ("noStay" in traced) {
      const lines = traced.noStay.map(
        ({ piece, at }) => `"${piece}" has no stay at ${writeMoment(at)}, so nothing can start from it then.`,
      );
      throw new BadInput([...lines, "Nothing was written."].join("\n"));
    }
    const { contacts } = traced;
    writeWhole(out, writeCsv(writeContacts(contacts, question.direction), ",", "\n"));
    const found =
      contacts.length === 1
        ? "1 piece is a possible contact"
        : `${contacts.length} pieces are possible contacts`;
    return {
      code: EXIT.ok,
      lines: [`${found}; ${read.history.stays.length} stays were read. Written to ${out}.`],
      json: { ok: true, contacts: contacts.length, stays: read.history.stays.length, out },
    };
  },
};

const HINT = `"${PROGRAM} trace --help" says how it is called.`;

function needed(given: Given, option: string): string {
  const text = given.text(option);
  if (text === undefined) throw new BadInput(`trace needs --${option} FILE. ${HINT}`);
  return text;
}

/** Reads what is asked, all faults of it at once. */
function readQuestion(given: Given): TraceQuestion {
  const faults: string[] = [];
  const time = (text: string, what: string): Microsecond => {
    const read = readMoment(text.trim());
    if ("at" in read) return read.at;
    faults.push(`${what}: the time "${text}" ${read.fault}.`);
    return 0;
  };
  const direction = given.isSet("backward") ? "backward" : "forward";
  const roots = given.texts("from").map((text) => {
    const at = text.lastIndexOf("@");
    const piece = text.slice(0, Math.max(at, 0)).trim();
    if (at < 0 || piece === "") {
      faults.push(`--from takes PIECE@TIME, not "${text}".`);
      return { piece, at: 0 };
    }
    return { piece, at: time(text.slice(at + 1), `--from ${text}`) };
  });
  if (roots.length === 0) faults.push("trace needs --from PIECE@TIME at least once.");
  const hops = given.text("hops");
  if (hops !== undefined && !/^\d{1,9}$/.test(hops))
    faults.push(`--hops takes a whole number, not "${hops}".`);
  const untilText = given.text("until");
  const until = untilText === undefined ? undefined : time(untilText, "--until");
  if (until !== undefined && faults.length === 0) {
    const outside = roots.filter(({ at }) => (direction === "forward" ? at > until : at < until));
    for (const { piece, at } of outside) {
      const side = direction === "forward" ? "before" : "after";
      faults.push(
        `--until ${writeMoment(until)} is ${side} the start from "${piece}" at ${writeMoment(at)}.`,
      );
    }
  }
  const carriers = readCarriers(given.text("carriers") ?? FOLLOWED.join(","), faults);
  if (faults.length > 0) throw new BadInput([...faults, HINT].join("\n"));
  return {
    roots,
    direction,
    carriers,
    ...(hops === undefined ? {} : { hops: Number(hops) }),
    ...(until === undefined ? {} : { until }),
  };
}

function readCarriers(text: string, faults: string[]): TraceQuestion["carriers"] {
  const words = text.split(",").map((word) => word.trim().toLowerCase());
  const wrong = words.find((word) => !FOLLOWED.some((each) => each === word));
  if (wrong === "apart")
    faults.push("--carriers takes closed and shared; what is kept apart is not followed.");
  else if (wrong !== undefined) faults.push(`--carriers takes closed and shared, not "${wrong}".`);
  return FOLLOWED.filter((each) => words.includes(each));
}

function readTable(name: string): CustodyTable {
  const decoded = decodeText(readNamedFile(name), MOST_BYTES);
  if ("refusal" in decoded) {
    const { why, next } = sayFileRefusal(decoded.refusal);
    throw new BadInput(`${name} was not read. ${why} ${next} Nothing was written.`);
  }
  const { separator, skip } = sniffSeparator(decoded.text);
  const read = readLinedRows(decoded.text.slice(skip), separator);
  const before = skip > 0 ? 1 : 0;
  if ("quoteOnLine" in read) {
    throw new BadInput(
      `${name} line ${read.quoteOnLine + before}: a quote that opens in this row never closes.\nNothing was written.`,
    );
  }
  return { name, rows: before ? read.rows.map((row) => ({ ...row, line: row.line + before })) : read.rows };
}

/** The answer must not replace what it is made from, and must have a folder to be in. */
function checkOut(out: string, inputs: readonly string[]): void {
  const same = inputs.find((input) => path.resolve(input) === path.resolve(out));
  if (same) throw new BadInput(`--out ${out} is one of the files that are read. Choose another name.`);
  const folder = path.dirname(path.resolve(out));
  if (!fs.existsSync(folder)) throw new BadInput(`There is no folder ${folder}.`);
  if (fs.existsSync(out) && fs.statSync(out).isDirectory()) throw new BadInput(`${out} is a folder.`);
}

/** Writes a file that bears its name only once it is whole. */
function writeWhole(name: string, text: string): void {
  if (fs.existsSync(name) && !fs.statSync(name).isFile()) {
    // A pipe or a terminal takes what it is given, and is not replaced.
    fs.writeFileSync(name, text);
    return;
  }
  const unfinished = path.join(path.dirname(path.resolve(name)), `.${path.basename(name)}.${process.pid}`);
  try {
    fs.writeFileSync(unfinished, text);
    fs.renameSync(unfinished, name);
  } finally {
    fs.rmSync(unfinished, { force: true });
  }
}
