import type { MemberId, PieceId, Uuid } from "../domain/ids.ts";
import type { PieceView } from "../domain/piece-view.ts";
import type { ScanAnswer, ScanSuggestion, ScanVia } from "../domain/scan-answer.ts";
import type { Repair } from "../domain/tags/repair.ts";
import {
  type ForeignFormat,
  readScannedText,
  readTypedText,
  type ScannedText,
} from "../domain/tags/scanned-text.ts";
import { findAccount, findAction, findLooseTag, findMember, findPlace } from "../store/cards.ts";
import type { Db } from "../store/db.ts";
import { keepScan } from "../store/keep-scan.ts";
import { type Found, type GarmentOnRecord, lookUp } from "../store/look-up.ts";
import { holderFromRow } from "../store/piece-from-row.ts";
import { findNumbers, findPieceLine } from "../store/pieces-named.ts";
import { bagAtCard } from "./bags.ts";
import { withAsks } from "./hold-asks.ts";
import { machineAtCard } from "./machine-views.ts";
import { viewOfPiece, withoutPeople } from "./piece-view.ts";
import { maySeePiece, type Viewer } from "./viewer.ts";

/** One scan at a bench, or number typed. */
export interface Scan {
  readonly text: string;
  readonly via: ScanVia;
  /** What the bench was set to do with it. */
  readonly mode: string;
  readonly device: string;
}

/** Who puts gear in machines. */
const AT_BENCH: ReadonlySet<string> = new Set(["technician", "inspector", "program manager"]);

/** Modes in which a piece is handed in: a bare badge is enough for them, and nobody's piece is turned away. */
export const HANDING_IN: ReadonlySet<string> = new Set([
  "turn in",
  "turn in soiled",
  "as found",
  "pack a bag",
]);

/** The answer, and a promise that settles when the scan is kept: the bench need not wait for that. */
export interface ScanAnswered {
  readonly answer: ScanAnswer;
  readonly kept: Promise<void>;
}

/**
 * Answers one scan with what its text names and all that the bench shows of it, and keeps the scan with its answer.
 * It changes nothing else. The longest text is 400 characters; what is longer is kept cut.
 */
export async function answerScan(db: Db, scan: Scan, viewer: Viewer, nowMs: number): Promise<ScanAnswered> {
  const read = scan.via === "typed" ? readTypedText(scan.text) : readScannedText(scan.text);
  const answer = await withMachine(db, await answerFor(db, read, viewer, scan.mode), viewer, nowMs);
  const subject = subjectOf(answer);
  const { text, via, mode, device } = scan;
  const kept = keepScan(db, {
    ...{ at: new Date(nowMs), by: viewer.account, device, via, mode, text, names: answer.kind },
    ...(subject ? { subject } : {}),
  });
  return { answer, kept };
}

/** Shows one piece by its id, as a page asks for it; undefined when it is not on record. Not a sighting. */
export async function viewPiece(db: Db, piece: PieceId): Promise<PieceView | undefined> {
  const found = await lookUp(db, { piece });
  return found?.garment && withAsks(db, viewOfPiece(found.garment));
}

/** A machine's card is its place's: whoever works at a bench is told what stands there and what is in it. */
async function withMachine(db: Db, answer: ScanAnswer, viewer: Viewer, nowMs: number): Promise<ScanAnswer> {
  if (answer.kind !== "place" || !AT_BENCH.has(viewer.role)) return answer;
  if (answer.place.what === "bag") return { ...answer, bag: await bagAtCard(db, answer.place.id) };
  const machine = await machineAtCard(db, answer.place.id, nowMs);
  return machine ? { ...answer, machine } : answer;
}

async function answerFor(db: Db, read: ScannedText, viewer: Viewer, mode: string): Promise<ScanAnswer> {
  const { text } = read;
  switch (read.code) {
    case "nothing":
      return { kind: "nothing", text };
    case "number": {
      const found = await lookUp(db, { number: read.number, code: read.key });
      if (found?.names === "foreign") return foreign(db, { text, format: "plain", mode }, found, viewer);
      if (found) return named(db, read, found, viewer, mode);
      const { number, host } = read;
      return { kind: "unknown-number", text, number, ...(host ? { host } : {}) };
    }
    case "foreign":
      return foreign(db, { text, format: read.format, mode }, await lookUp(db, { code: read.key }), viewer);
    case "misread": {
      const found = await lookUp(db, { code: read.key });
      if (found) return foreign(db, { text, format: "plain", mode }, found, viewer);
      return misread(db, read, viewer);
    }
    default:
      return read satisfies never;
  }
}

/** Twelve symbols that are not in the register as a number can be a maker's serial: a bound code is never a misread. */
async function misread(
  db: Db,
  { text, symbols, suggestions }: Extract<ScannedText, { code: "misread" }>,
  viewer: Viewer,
): Promise<ScanAnswer> {
  const known = new Map(
    (
      await findNumbers(
        db,
        suggestions.map(({ number }) => number),
      )
    ).map((found) => [found.number, found]),
  );
  const suggest = ({ number, change }: Repair): ScanSuggestion[] => {
    const found = known.get(number);
    if (!found) return [];
    // What is suggested is not yet what was scanned: whoever sees own gear alone is not told of others'.
    const isShown = viewer.role !== "member" && viewer.role !== "company officer";
    if (found.piece && isShown) return [{ number, change, piece: found.piece }];
    return [{ number, change, names: found.names }];
  };
  return { kind: "misread", text, symbols, suggestions: suggestions.flatMap(suggest) };
}

async function foreign(
  db: Db,
  { text, format, mode }: { text: string; format: ForeignFormat; mode: string },
  found: Found | undefined,
  viewer: Viewer,
): Promise<ScanAnswer> {
  if (!found?.garment) return { kind: "foreign", text, format };
  const piece = await viewFor(db, viewer, found.garment, mode);
  return piece ? { kind: "foreign", text, format, piece } : { kind: "not-yours", text };
}

async function named(
  db: Db,
  { text, number }: Extract<ScannedText, { code: "number" }>,
  found: Found,
  viewer: Viewer,
  mode: string,
): Promise<ScanAnswer> {
  const isOwnOnly = viewer.role === "member";
  switch (found.names) {
    case "tag": {
      if (!found.garment) return looseTag(db, text, number, found.subject);
      const piece = await viewFor(db, viewer, found.garment, mode);
      if (!piece) return { kind: "not-yours", text };
      const tag = found.garment.tags.find((each) => each.number === number);
      return { kind: "piece", text, piece, tag: onRecord(tag) };
    }
    case "place":
      return { kind: "place", text, place: onRecord(await findPlace(db, found.subject)) };
    case "member": {
      if (isOwnOnly && found.subject !== viewer.member) return { kind: "not-yours", text };
      return { kind: "member", text, member: onRecord(await findMember(db, found.subject)) };
    }
    case "badge": {
      if (isOwnOnly && found.subject !== viewer.account) return { kind: "not-yours", text };
      return { kind: "badge", text, account: onRecord(await findAccount(db, found.subject)) };
    }
    case "action": {
      const action = await findAction(db, number);
      return action ? { kind: "action", text, action } : { kind: "unknown-number", text, number };
    }
    case "piece":
    case "foreign":
      throw new Error("A number names neither of these.");
    default:
      return found.names satisfies never;
  }
}

async function looseTag(
  db: Db,
  text: string,
  number: Extract<ScannedText, { code: "number" }>["number"],
  tag: Uuid,
): Promise<ScanAnswer> {
  const { meantFor, ...facts } = onRecord(await findLooseTag(db, tag));
  const piece = meantFor && (await findPieceLine(db, meantFor));
  return { kind: "unattached-tag", text, number, ...facts, ...(piece ? { meantFor: piece } : {}) };
}

/**
 * Shows a piece to whoever scanned it. Who may not see it is still shown it, without people, where the scan hands it in:
 * where a piece is may always be recorded, and it is in that person's hands.
 */
async function viewFor(
  db: Db,
  viewer: Viewer,
  garment: GarmentOnRecord,
  mode: string,
): Promise<PieceView | undefined> {
  const assigned = garment.row.member as MemberId | null;
  const whereabouts = { holder: holderFromRow(garment.row), ...(assigned ? { assigned } : {}) };
  if (await maySeePiece(db, viewer, whereabouts)) return withAsks(db, viewOfPiece(garment));
  return HANDING_IN.has(mode) ? withoutPeople(viewOfPiece(garment)) : undefined;
}

/** What the register said a moment ago that it knows. */
function onRecord<Value>(value: Value | undefined): Value {
  if (value === undefined) throw new Error("A number names something that has no row.");
  return value;
}

function subjectOf(answer: ScanAnswer): Uuid | undefined {
  switch (answer.kind) {
    case "piece":
      return answer.piece.id;
    case "foreign":
      return answer.piece?.id;
    case "place":
      return answer.place.id;
    case "member":
      return answer.member.id;
    case "badge":
      return answer.account.id;
    default:
      return undefined;
  }
}
