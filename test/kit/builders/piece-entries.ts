import type { Holder } from "../../../server/domain/custody/holder.ts";
import type { Evidence } from "../../../server/domain/evidence.ts";
import type { AccountId, MemberId, PieceId, PlaceId } from "../../../server/domain/ids.ts";
import type {
  EntryCorrected,
  HoldPlaced,
  LayerFoundFitted,
  LayerInstalled,
  LayerSeparated,
  PieceCleaned,
  PieceEntry,
  PieceFound,
  PieceMoved,
  PieceRegistered,
  PieceRetired,
  Versioned,
} from "../../../server/domain/pieces/piece-entries.ts";
import type { Instant } from "../../../server/domain/time.ts";

const MINUTE = 60_000;
const MORNING = Date.parse("2026-03-02T08:00:00Z");

/** Minutes after eight in the morning of a Monday in March. */
export function minute(count: number): Instant {
  return (MORNING + count * MINUTE) as Instant;
}

function countedUuid(series: number, count: number): string {
  return `01950000-0000-7000-8000-${series.toString(16).padStart(4, "0")}${count.toString(16).padStart(8, "0")}`;
}

/** Racks A to Z of the cage, told apart by their letter alone. */
export function aRack(letter: string): Holder {
  return { kind: "place", id: countedUuid(0xa, letter.charCodeAt(0)) as PlaceId };
}

export function aMember(count = 1): Holder {
  return { kind: "member", id: countedUuid(0xb, count) as MemberId };
}

export function aPieceId(count = 1): PieceId {
  return countedUuid(0xc, count) as PieceId;
}

export const ANY_ACCOUNT = countedUuid(0xd, 1) as AccountId;

interface When {
  readonly at?: number;
  readonly evidence?: Evidence;
}

function fact({ at = 0, evidence = "scanned" }: When) {
  return { at: minute(at), evidence };
}

/** The registration of a coat liner on Rack A at eight, unless told otherwise. */
export function aPiece(
  facts: When & Partial<Omit<PieceRegistered, "at" | "evidence" | "kind">> = {},
): PieceRegistered {
  const { at, evidence, ...rest } = facts;
  return {
    kind: "PieceRegistered",
    pieceKind: "coat-liner",
    label: {},
    reading: "not yet read",
    file: { owner: { kind: "department" } },
    holder: aRack("A"),
    ...rest,
    ...fact({ ...(at === undefined ? {} : { at }), evidence: evidence ?? "scanned" }),
  };
}

export function aMove(at: number, from: Holder, to: Holder, facts: Partial<PieceMoved> = {}): PieceMoved {
  return { kind: "PieceMoved", from, to, purpose: "transfer", ...fact({ at }), ...facts };
}

export function aFinding(at: number, holder: Holder, facts: Partial<PieceFound> = {}): PieceFound {
  return { kind: "PieceFound", holder, ...fact({ at }), ...facts };
}

export function aCleaning(at: number): PieceCleaned {
  return { kind: "PieceCleaned", how: "advanced cleaning", ...fact({ at }) };
}

export function aRetirement(at: number): PieceRetired {
  return { kind: "PieceRetired", method: "cut up", ...fact({ at }) };
}

export function anInstall(at: number, shell: PieceId): LayerInstalled {
  return { kind: "LayerInstalled", shell, layerKind: "liner", verdict: "match", ...fact({ at }) };
}

export function foundFitted(at: number, shell: PieceId): LayerFoundFitted {
  return { kind: "LayerFoundFitted", shell, layerKind: "liner", verdict: "differs", ...fact({ at }) };
}

export function aSeparation(at: number, shell: PieceId): LayerSeparated {
  return { kind: "LayerSeparated", shell, ...fact({ at }) };
}

export function aHold(at: number): HoldPlaced {
  return { kind: "HoldPlaced", hold: "finding", by: ANY_ACCOUNT, ...fact({ at }) };
}

/** A correction of an earlier entry; without `instead` it voids it. */
export function aCorrection(
  at: number,
  corrects: number,
  instead?: NonNullable<EntryCorrected["instead"]>,
): EntryCorrected {
  return { kind: "EntryCorrected", corrects, ...fact({ at }), ...(instead ? { instead } : {}) };
}

/** Numbers entries in the order in which they were recorded. */
export function recorded(...entries: readonly PieceEntry[]): Versioned<PieceEntry>[] {
  return entries.map((entry, index) => ({ version: index + 1, entry }));
}
