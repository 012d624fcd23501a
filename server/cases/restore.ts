import { lockRules } from "../store/act-scope.ts";
import {
  headFromLastAct,
  insertActLines,
  insertEntryLines,
  lockEmptyLedger,
} from "../store/backup-ledger.ts";
import { insertBeside, landedMigrations } from "../store/backup-tables.ts";
import type { Db, Tx } from "../store/db.ts";
import { rebuildProjections } from "../store/rebuild-projections.ts";
import { readHead } from "../store/walk-acts.ts";
import {
  BACKUP_FORMAT,
  type BackupEnd,
  type BackupHeader,
  LineTally,
  SECTIONS,
  type Section,
} from "./backup-format.ts";
import type { OnProgress } from "./progress.ts";
import { type Verification, verifyLedger } from "./verify.ts";

/** Why a backup is not restored. Nothing of it is in the database then. */
export type RestoreRefusal =
  | { readonly code: "not-a-backup" }
  | { readonly code: "made-by-newer"; readonly what: string }
  | { readonly code: "not-empty" }
  /** The text ends before its end line, or is not the text that was written. */
  | { readonly code: "cut-off" }
  | { readonly code: "damaged"; readonly why: string };

export type RestoreOutcome =
  | { readonly refused: RestoreRefusal }
  | { readonly verification: Verification; readonly counts: Readonly<Record<string, number>> };

class Refused extends Error {
  readonly refusal: RestoreRefusal;
  constructor(refusal: RestoreRefusal) {
    super(refusal.code);
    this.refusal = refusal;
  }
}

const BATCH = 5_000;

/**
 * Restores a backup into an empty database in one transaction, all or nothing: acts and entries byte for byte, then
 * the tables that follow, built from the entries. What was restored is then verified against the backup's own seal.
 */
export async function restore(
  db: Db,
  lines: AsyncIterable<string>,
  onProgress: OnProgress = () => {},
): Promise<RestoreOutcome> {
  try {
    const { header, counts } = await db.transaction().execute((tx) => replay(tx, lines, onProgress));
    const seals = header.position > 0 ? [{ position: header.position, hash: header.hash }] : [];
    return { verification: await verifyLedger(db, { seals, onProgress }), counts };
  } catch (failure) {
    if (failure instanceof Refused) return { refused: failure.refusal };
    throw failure;
  }
}

async function replay(tx: Tx, lines: AsyncIterable<string>, onProgress: OnProgress) {
  await lockRules(tx, "exclusive");
  if (!(await lockEmptyLedger(tx))) throw new Refused({ code: "not-empty" });
  const { header, counts } = await readLines(tx, lines, onProgress);
  await headFromLastAct(tx);
  const head = await readHead(tx);
  const isSealed = head?.position === header.position && head.hash.toString("hex") === header.hash;
  if (!isSealed)
    throw new Refused({ code: "damaged", why: "its last act is not the one that its header names" });
  const entries = counts["entry"] ?? 0;
  const findings = await rebuildProjections(tx, (done) =>
    onProgress({ phase: "tables", done, total: entries }),
  );
  const [first] = findings;
  if (first) throw new Refused({ code: "damaged", why: `its entries do not stand: ${first.code}` });
  return { header, counts };
}

async function readLines(tx: Tx, lines: AsyncIterable<string>, onProgress: OnProgress) {
  const tally = new LineTally();
  let header: BackupHeader | undefined;
  let end: BackupEnd | undefined;
  let section: Section | undefined;
  let held: string[] = [];
  const flush = async () => {
    if (section === undefined || held.length === 0) return;
    await insertLines(tx, section, held);
    tally.count(section, held.length);
    const done = tally.counts[section] ?? 0;
    if (section === "act") onProgress({ phase: "acts", done, total: header?.position ?? done });
    if (section === "entry") onProgress({ phase: "entries", done, total: done });
    held = [];
  };
  for await (const line of lines) {
    if (end) throw new Refused({ code: "damaged", why: "it goes on after its end" });
    if (!header) header = await readHeader(tx, line);
    else if (line.startsWith('{"section"')) {
      await flush();
      section = sectionOf(line);
      tally.count(section, 0);
    } else if (line.startsWith('{"end"')) {
      await flush();
      end = parsed<BackupEnd>(line);
    } else held.push(line);
    if (!end) tally.add(line);
    if (held.length >= BATCH) await flush();
  }
  if (!header) throw new Refused({ code: "not-a-backup" });
  if (!end) throw new Refused({ code: "cut-off" });
  if (end.sha256 !== tally.digest()) throw new Refused({ code: "damaged", why: "its SHA-256 differs" });
  return { header, counts: tally.counts };
}

async function readHeader(tx: Tx, line: string): Promise<BackupHeader> {
  const header = parsed<Partial<BackupHeader>>(line, { code: "not-a-backup" });
  if (header?.layertrail !== "backup") throw new Refused({ code: "not-a-backup" });
  if (header.format !== BACKUP_FORMAT)
    throw new Refused({ code: "made-by-newer", what: `format ${header.format}` });
  const known = await landedMigrations(tx);
  if (!known.includes(header.schema ?? "")) {
    throw new Refused({ code: "made-by-newer", what: `schema ${header.schema}` });
  }
  return header as BackupHeader;
}

function sectionOf(line: string): Section {
  const { section } = parsed<{ section: string }>(line);
  const known = SECTIONS.find((name) => name === section);
  if (!known) throw new Refused({ code: "made-by-newer", what: `section ${section}` });
  return known;
}

function parsed<Value>(
  line: string,
  refusal: RestoreRefusal = { code: "damaged", why: "a line of it is not JSON" },
): Value {
  try {
    return JSON.parse(line) as Value;
  } catch {
    throw new Refused(refusal);
  }
}

/** SQLSTATE classes of values that no table takes: bad text, bad syntax of a value, and broken constraints. */
const BAD_DATA = /^2[23]/;

async function insertLines(tx: Tx, section: Section, lines: readonly string[]): Promise<void> {
  try {
    if (section === "act") await insertActLines(tx, lines);
    else if (section === "entry") await insertEntryLines(tx, lines);
    else await insertBeside(tx, section, lines);
  } catch (failure) {
    const code = failure instanceof Error && "code" in failure ? String(failure.code) : "";
    if (!BAD_DATA.test(code)) throw failure;
    throw new Refused({ code: "damaged", why: `a row of ${section} is not one that the table takes` });
  }
}
