import { isWash } from "../cleaning/is-wash.ts";
import {
  type Custody,
  type CustodyFault,
  foldStays,
  inOrderOfHappening,
  type Stay,
  withCorrections,
} from "../custody/fold-stays.ts";
import type { Holder } from "../custody/holder.ts";
import { type Evidence, isSeen } from "../evidence.ts";
import { type Fitting, type FittingFault, foldFittings } from "../fittings/fold-fittings.ts";
import type { EventId, ModelId, PieceId, Uuid } from "../ids.ts";
import type { Instant } from "../time.ts";
import { type FoundProperty, givenBack } from "./found-property.ts";
import type { LabelReading, MakersLabel } from "./label.ts";
import type { Assignment, HoldKind, HowCleaned, PieceEntry, PieceFile, Versioned } from "./piece-entries.ts";

/** A reason why a piece may not be issued; its number is the version of the entry that placed it. */
export interface Hold {
  readonly version: number;
  readonly kind: HoldKind;
  readonly with?: PieceId;
  readonly event?: EventId;
  readonly placedAt: Instant;
  readonly placedBy: Uuid;
  readonly liftedAt?: Instant;
  readonly liftedVersion?: number;
}

/** The piece at a contamination event. */
export interface Meeting {
  readonly event: EventId;
  readonly from: Instant;
  readonly to: Instant;
  readonly evidence: Evidence;
  /** The entry that says so last. */
  readonly version: number;
}

export interface Cleaning {
  readonly at: Instant;
  readonly how: HowCleaned;
  readonly evidence: Evidence;
  readonly version: number;
}

export interface ByEye {
  readonly shell: PieceId;
  readonly by: Uuid;
  readonly at: Instant;
}

/** What the ledger says of one piece: all of it follows from the piece's own entries. */
export interface PieceState {
  readonly id: PieceId;
  readonly version: number;
  readonly kind: string;
  readonly model?: ModelId;
  readonly label: MakersLabel;
  readonly reading: LabelReading;
  readonly file: PieceFile;
  readonly assignment?: Assignment;
  readonly soiled: boolean;
  /** When it came in soiled last; a wash ends it. */
  readonly soiledSince?: Instant;
  readonly washes: number;
  /** It came in wet and nobody has moved it on since. */
  readonly wet: boolean;
  readonly property: readonly FoundProperty[];
  readonly registeredAt: Instant;
  /** When somebody last scanned it or had it in hand, by what the ledger tells. */
  readonly seenAt?: Instant;
  readonly retiredAt?: Instant;
  readonly holder: Holder;
  readonly heldSince: Instant;
  readonly stays: readonly Stay[];
  /** When somebody found it where it was, in order. */
  readonly foundAt: readonly Instant[];
  readonly fittings: readonly Fitting[];
  readonly holds: readonly Hold[];
  readonly foreignCodes: readonly { readonly code: string; readonly version: number }[];
  readonly byEye: readonly ByEye[];
  readonly meetings: readonly Meeting[];
  readonly cleanings: readonly Cleaning[];
}

export type PieceFault =
  | CustodyFault
  | FittingFault
  | { readonly code: "never-registered"; readonly version: number };

/** Tells a fault of the fold from a state. */
export function isFault(folded: PieceState | PieceFault): folded is PieceFault {
  return "code" in folded;
}

/**
 * Folds all entries of one piece into what is true of it. Pure and complete: tables are rebuilt with it.
 * Returns the fault that makes the entries contradict each other, where there is one.
 */
export function foldPiece(id: PieceId, entries: readonly Versioned<PieceEntry>[]): PieceState | PieceFault {
  const standing = withCorrections(entries);
  const custody = foldStays(standing);
  if ("code" in custody) return custody;
  const fittings = foldFittings(standing);
  if ("code" in fittings) return fittings;
  const version = entries.at(-1)?.version ?? 0;
  const first = standing.find(({ entry }) => entry.kind === "PieceRegistered")?.entry;
  const stay = custody.stays.at(-1);
  if (first?.kind !== "PieceRegistered" || !stay) return { code: "never-registered", version };
  const told = tellings(inOrderOfHappening(standing), first.label, first.file);
  return {
    id,
    version,
    kind: first.pieceKind,
    registeredAt: first.at,
    ...told,
    ...lastSeen(standing),
    foundAt: foundAt(standing),
    ...custodyNow(custody, stay),
    fittings,
    meetings: meetingsOf(standing),
  };
}

function custodyNow(custody: Custody, stay: Stay) {
  return {
    holder: stay.holder,
    heldSince: stay.from,
    stays: custody.stays,
    ...(custody.retiredAt === undefined ? {} : { retiredAt: custody.retiredAt }),
  };
}

function lastSeen(standing: readonly Versioned<PieceEntry>[]): { seenAt?: Instant } {
  const seen = standing.filter(({ entry }) => isSeen(entry.evidence)).map(({ entry }) => entry.at);
  return seen.length === 0 ? {} : { seenAt: Math.max(...seen) as Instant };
}

function foundAt(standing: readonly Versioned<PieceEntry>[]): readonly Instant[] {
  return inOrderOfHappening(standing)
    .filter(({ entry }) => entry.kind === "PieceFound")
    .map(({ entry }) => entry.at);
}

/** Collects what entries tell apart from custody and fitting, in the order in which it happened. */
function tellings(ordered: readonly Versioned<PieceEntry>[], label: MakersLabel, file: PieceFile) {
  const told = {
    label,
    file,
    reading: "not yet read" as LabelReading,
    model: undefined as ModelId | undefined,
    assignment: undefined as Assignment | undefined,
    soiled: false,
    soiledSince: undefined as Instant | undefined,
    washes: 0,
    wet: false,
    property: [] as FoundProperty[],
    holds: [] as Hold[],
    foreignCodes: [] as { code: string; version: number }[],
    byEye: [] as ByEye[],
    cleanings: [] as Cleaning[],
  };
  // Two devices' clocks differ: a lift may bear an earlier time than its hold, and lifts it all the same.
  const lifts = new Map<number, { liftedAt: Instant; liftedVersion: number }>();
  for (const { version, entry } of ordered) {
    switch (entry.kind) {
      case "PieceRegistered":
        told.reading = entry.reading;
        told.model = entry.model;
        told.assignment = entry.assignment;
        break;
      case "PieceDescribed":
        told.label = merged(told.label, entry.label);
        told.file = merged(told.file, entry.file);
        if (entry.reading) told.reading = entry.reading;
        if (entry.model !== undefined) told.model = entry.model ?? undefined;
        break;
      case "PieceMoved":
        if (entry.soiled) {
          told.soiled = true;
          told.soiledSince = entry.at;
        }
        told.wet = entry.wet ?? false;
        if (entry.assignment) told.assignment = entry.assignment;
        break;
      case "PieceAssigned":
        told.assignment = entry.assignment ?? undefined;
        break;
      case "PieceCleaned":
        told.cleanings.push({ at: entry.at, how: entry.how, evidence: entry.evidence, version });
        if (!isWash(entry.how)) break;
        told.washes += 1;
        // Care that was brought in from an older list permits nothing.
        if (entry.evidence === "imported") break;
        told.soiled = false;
        told.soiledSince = undefined;
        break;
      case "PropertyFound":
        told.property.push({ receipt: entry.receipt, foundAt: entry.at, version });
        break;
      case "PropertyGivenBack":
        told.property = told.property.map((found) => givenBack(found, entry));
        break;
      case "HoldPlaced":
        told.holds.push({
          version,
          kind: entry.hold,
          placedAt: entry.at,
          placedBy: entry.by,
          ...(entry.with ? { with: entry.with } : {}),
          ...(entry.event ? { event: entry.event } : {}),
        });
        break;
      case "HoldLifted":
        if (!lifts.has(entry.hold)) lifts.set(entry.hold, { liftedAt: entry.at, liftedVersion: version });
        break;
      case "ForeignCodeBound":
        told.foreignCodes.push({ code: entry.code, version });
        break;
      case "LabelsComparedByEye":
        told.byEye.push({ shell: entry.shell, by: entry.by, at: entry.at });
        break;
      case "PieceMet":
      case "PieceNotMet":
      case "PieceFound":
      case "PieceRetired":
      case "LayerInstalled":
      case "LayerFoundFitted":
      case "LayerSeparated":
      case "EntryCorrected":
        break;
      default:
        entry satisfies never;
    }
  }
  const { model, assignment, holds, soiledSince, ...rest } = told;
  return {
    ...rest,
    holds: holds.map((hold) => ({ ...hold, ...lifts.get(hold.version) })),
    ...(soiledSince === undefined ? {} : { soiledSince }),
    ...(model ? { model } : {}),
    ...(assignment ? { assignment } : {}),
  };
}

/** Collects one meeting an event. What was recorded last of it holds, whenever the event was. */
function meetingsOf(standing: readonly Versioned<PieceEntry>[]): readonly Meeting[] {
  const meetings = new Map<EventId, Meeting>();
  for (const { version, entry } of standing) {
    if (entry.kind === "PieceNotMet") meetings.delete(entry.event);
    if (entry.kind !== "PieceMet") continue;
    const { event, from, to, evidence } = entry;
    meetings.set(event, { event, from, to, evidence, version });
  }
  return [...meetings.values()];
}

function merged<Facts extends object>(
  before: Facts,
  changes: { readonly [Field in keyof Facts]?: Facts[Field] | null },
): Facts {
  const after = { ...before };
  for (const field in changes) {
    const value = changes[field];
    if (value === null) delete after[field];
    else if (value !== undefined) after[field] = value as Facts[typeof field];
  }
  return after;
}

/** Gives the shell in which a layer is fitted now, or undefined. */
export function fittedNow(state: PieceState): Fitting | undefined {
  const last = state.fittings.at(-1);
  return last && last.to === undefined ? last : undefined;
}

/** Gives the holds that stand now. */
export function standingHolds(state: PieceState): readonly Hold[] {
  return state.holds.filter((hold) => hold.liftedAt === undefined);
}
