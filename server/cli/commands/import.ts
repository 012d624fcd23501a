import { createHash } from "node:crypto";
import fs from "node:fs";
import path from "node:path";
import type { Db } from "../../cases/database-handle.ts";
import {
  type BroughtIn,
  dropUpload,
  findBroughtIn,
  findUpload,
  type ImportWhat,
  keepColumns,
  keepUpload,
  listProblems,
  parkedCsvOf,
} from "../../cases/import-record.ts";
import { drawId } from "../../cases/import-register.ts";
import type { JobReason } from "../../cases/job-record.ts";
import { SYSTEM_ACCOUNT } from "../../cases/system-account.ts";
import type { Uuid } from "../../domain/ids.ts";
import type { ImportPreview } from "../../domain/intake/import-preview.ts";
import type { JobSetting } from "../../jobs/job-order.ts";
import { COLUMNS_OF } from "../../jobs/read-file.ts";
import { bringInFile, readUpload } from "../../jobs/run-import.ts";
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
import { readNamedFile } from "../read-named-file.ts";

const WHATS = ["pieces", "models", "members"] as const;
const MOST_LINES = 20;

export const importCommand: Command = {
  name: "import",
  summary: "Bring in a CSV file of pieces, models or members.",
  arguments: ["FILE"],
  options: {
    what: { type: "string", value: "WHAT", says: "pieces (else this), models or members" },
    map: {
      type: "string",
      multiple: true,
      value: "COLUMN=FIELD",
      says: "the column by its header or its number from 1; =FIELD says that none holds it",
    },
    "dry-run": { type: "boolean", says: "read the file and say what it comes to; write nothing" },
    yes: { type: "boolean", says: "bring in the accepted rows although others are parked" },
    parked: { type: "string", value: "FILE", says: "write the parked rows with their reasons to a new file" },
  },
  details: [
    "Accepted rows come in as one act, all or none. Rows with a problem are parked: mend them and bring in that file.",
    "Without --yes nothing is written while a row is parked. The same file a second time changes nothing.",
    `Fields of pieces: ${COLUMNS_OF.pieces.map(({ field }) => field).join(", ")}.`,
    `Fields of models: ${COLUMNS_OF.models.map(({ field }) => field).join(", ")}.`,
    `Fields of members: ${COLUMNS_OF.members.map(({ field }) => field).join(", ")}.`,
  ],
  async run(given, house) {
    const [name = ""] = given.arguments;
    const what = WHATS.find((each) => each === (given.text("what") ?? "pieces"));
    if (!what) throw new BadInput(`--what takes ${WHATS.join(", ")}.`);
    const bytes = readNamedFile(name);
    const parkedFile = given.text("parked");
    if (parkedFile && fs.existsSync(parkedFile)) throw new BadInput(`${parkedFile} is there already.`);
    return withDatabase(house, { mayBeNew: false }, async (open) => {
      const sha256 = createHash("sha256").update(bytes).digest();
      const known = await findBroughtIn(open.db, sha256);
      if (known) return sayKnown(name, known);
      const upload = drawId<Uuid>(house.now());
      const row = { id: upload, what, name: path.basename(name), by: SYSTEM_ACCOUNT, sha256, bytes };
      await keepUpload(open.db, row);
      try {
        return await bringIn({ upload, what, name, parkedFile }, given, house, settingHere(open, house));
      } finally {
        await dropUpload(open.db, upload);
      }
    });
  },
};

interface Job {
  readonly upload: Uuid;
  readonly what: ImportWhat;
  readonly name: string;
  readonly parkedFile: string | undefined;
}

async function bringIn(job: Job, given: Given, house: House, setting: JobSetting): Promise<Outcome> {
  const { db } = setting;
  const { upload, name } = job;
  const maps = given.texts("map");
  const first = await readUpload(upload, setting);
  if ("reasons" in first) return sayReasons(name, first.reasons);
  if (maps.length > 0) {
    const { headers } = await previewOf(db, upload);
    await keepColumns(db, upload, readMaps(maps, headers, job.what));
    const again = await readUpload(upload, setting);
    if ("reasons" in again) return sayReasons(name, again.reasons);
  }
  const preview = await previewOf(db, upload);
  if (job.parkedFile && preview.parked > 0) {
    fs.writeFileSync(job.parkedFile, (await parkedCsvOf(db, upload)) ?? "", { flag: "wx" });
  }
  const problems = await listProblems(db, upload, 0, 1_000);
  const json = { file: name, what: job.what, ...preview, problems };
  const lines = [...sayPreview(name, preview), ...problems.slice(0, MOST_LINES).map(sayProblemLine)];
  if (problems.length > MOST_LINES) lines.push("More problems stand in the file of --parked, and in --json.");
  const isParked = preview.parked > 0 || preview.missing.length > 0;
  if (given.isSet("dry-run")) {
    return {
      code: isParked ? EXIT.found : EXIT.ok,
      lines: [...lines, "Nothing was written."],
      json: { ...json, isWritten: false },
    };
  }
  if (isParked && !given.isSet("yes")) {
    const next = "Nothing was written. Next: mend the rows, or add --yes to bring in the others.";
    return { code: EXIT.found, lines: [...lines, next], json: { ...json, isWritten: false } };
  }
  const order = { what: "bring in file", about: upload, digest: preview.digest } as const;
  const end = await bringInFile({ ...order, envelope: envelopeHere(house.now()) }, setting);
  if ("reasons" in end) return sayReasons(name, end.reasons);
  const { fresh, changed } = preview.counts;
  const written = `Written as one act: ${fresh} new, ${changed} changed, ${preview.parked} parked.`;
  return { code: EXIT.ok, lines: [...lines, written], json: { ...json, isWritten: true } };
}

async function previewOf(db: Db, upload: Uuid): Promise<ImportPreview> {
  const found = await findUpload(db, upload);
  if (!found?.preview) throw new Error("The file was read, and nothing was kept of it.");
  return found.preview as ImportPreview;
}

/** Reads COLUMN=FIELD; the field stands after the last equals sign, since a header may hold one. */
function readMaps(
  maps: readonly string[],
  headers: readonly string[],
  what: ImportWhat,
): Record<string, number | null> {
  const columns: Record<string, number | null> = {};
  for (const map of maps) {
    const at = map.lastIndexOf("=");
    const [column, field] = [map.slice(0, Math.max(at, 0)).trim(), map.slice(at + 1).trim()];
    if (at < 0 || !COLUMNS_OF[what].some((each) => each.field === field)) {
      throw new BadInput(`--map ${map}: write COLUMN=FIELD with a field of ${what}.`);
    }
    const index = headers.findIndex((header) => header.trim().toLowerCase() === column.toLowerCase());
    const number = /^\d+$/.test(column) ? Number(column) - 1 : -1;
    const found = index >= 0 ? index : number;
    if (column !== "" && (found < 0 || found >= headers.length)) {
      throw new BadInput(`--map ${map}: the file has no column "${column}".`);
    }
    columns[field] = column === "" ? null : found;
  }
  return columns;
}

function sayPreview(name: string, preview: ImportPreview): string[] {
  const { rows, accepted, parked, counts, missing, columns } = preview;
  if (missing.length > 0) {
    const headers = columns.filter(({ field }) => missing.includes(field)).map(({ field }) => field);
    return [`${name}: no column holds ${headers.join(", ")}. Next: say which with --map COLUMN=FIELD.`];
  }
  const same = counts.same > 0 ? `, ${counts.same} say what is so already` : "";
  return [`${name}: ${rows} rows, ${accepted} can come in, ${parked} are parked${same}.`];
}

function sayProblemLine({ row, says }: { readonly row: number; readonly says: string }): string {
  return `  row ${row}: ${says}`;
}

function sayReasons(name: string, reasons: readonly JobReason[]): Outcome {
  return {
    code: EXIT.found,
    lines: reasons.map(({ what, why, next }) => `${name}: ${what} ${why} Next: ${next}`),
    json: { file: name, isWritten: false, reasons },
  };
}

function sayKnown(name: string, known: BroughtIn): Outcome {
  const { at, what, accepted, parked } = known;
  return {
    code: EXIT.ok,
    lines: [
      `${name}: brought in on ${at.toISOString()} as ${known.name} (${what}), ${accepted} rows, ${parked} parked. Nothing was changed.`,
    ],
    json: { file: name, isWritten: false, broughtIn: { ...known, at: at.toISOString() } },
  };
}
