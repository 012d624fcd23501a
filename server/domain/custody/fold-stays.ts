import { type Evidence, isSeen } from "../evidence.ts";
import type { LoadId } from "../ids.ts";
import type { PieceEntry, Versioned } from "../pieces/piece-entries.ts";
import type { Instant } from "../time.ts";
import { type Holder, isSameHolder, WHEREABOUTS_UNKNOWN } from "./holder.ts";

/** The time that a piece is with one holder, half-open [from, to); without `to` it lasts. */
export interface Stay {
  readonly holder: Holder;
  readonly from: Instant;
  readonly to?: Instant;
  readonly evidence: Evidence;
  /** The load with which it is there. */
  readonly load?: LoadId;
  /** The entry that began it; for a stay with whereabouts unknown, the finding that revealed it. */
  readonly fromVersion: number;
  readonly toVersion?: number;
}

/** Why the entries of one piece do not make one unbroken line of stays. */
export type CustodyFault =
  | { readonly code: "before-registered"; readonly version: number; readonly registeredAt: Instant }
  | {
      readonly code: "holder-differs";
      readonly version: number;
      readonly at: Instant;
      readonly stated: Holder;
      readonly recorded: Holder;
    }
  | { readonly code: "after-retired"; readonly version: number; readonly retiredAt: Instant };

export interface Custody {
  readonly stays: readonly Stay[];
  readonly retiredAt?: Instant;
}

/** An entry that stands. `place` is the version that it stands in for, where it corrects another. */
export interface Standing extends Versioned<PieceEntry> {
  readonly place?: number;
}

/** Orders entries as they happened: by time, then as they were recorded; a correction takes the place of the first. */
export function inOrderOfHappening(entries: readonly Standing[]): Standing[] {
  return [...entries].sort(
    (a, b) => a.entry.at - b.entry.at || (a.place ?? a.version) - (b.place ?? b.version),
  );
}

/**
 * Puts what corrections say in the place of what they correct, and leaves out what they void.
 * A correction keeps its own version, so that the trail can name both, and the place of what it corrects, so that
 * of two moves in one minute the first can be corrected.
 */
export function withCorrections(entries: readonly Versioned<PieceEntry>[]): Standing[] {
  const corrects = new Map<number, number>();
  for (const { version, entry } of entries)
    if (entry.kind === "EntryCorrected") corrects.set(version, entry.corrects);
  const corrected = new Set(corrects.values());
  const placeOf = (version: number): number => {
    const first = corrects.get(version);
    return first === undefined || first >= version ? version : placeOf(first);
  };
  const standing: Standing[] = [];
  for (const { version, entry } of entries) {
    if (corrected.has(version)) continue;
    if (entry.kind !== "EntryCorrected") standing.push({ version, entry });
    else if (entry.instead) standing.push({ version, entry: entry.instead, place: placeOf(version) });
  }
  return standing;
}

/** The stay under construction, with the last moment at which somebody saw the piece there. */
interface OpenStay {
  holder: Holder;
  from: Instant;
  support: Instant;
  evidence: Evidence;
  load?: LoadId;
  fromVersion: number;
}

/**
 * Folds a piece's entries into its stays, ordered by time and then by version. Corrected entries must be out already.
 * A move that names another holder than the recorded one is a fault. A piece found elsewhere ends the old stay
 * at its last support, and a stay with whereabouts unknown fills the time between: that is the custody gap.
 */
export function foldStays(entries: readonly Versioned<PieceEntry>[]): Custody | CustodyFault {
  const stays: Stay[] = [];
  let open: OpenStay | undefined;
  let retired: { at: Instant } | undefined;
  const close = (to: Instant, toVersion: number) => {
    if (!open) return;
    const { support: _, ...stay } = open;
    stays.push({ ...stay, to, toVersion });
  };
  for (const { version, entry } of inOrderOfHappening(entries)) {
    if (entry.kind === "PieceRegistered") {
      open = begin(entry.holder, entry.at, entry.evidence, version);
      continue;
    }
    if (!open) return faultBefore(version, entries);
    if (retired && endsWithRetirement(entry))
      return { code: "after-retired", version, retiredAt: retired.at };
    if (entry.kind === "PieceMoved") {
      if (!isSameHolder(entry.from, open.holder)) {
        return { code: "holder-differs", version, at: entry.at, stated: entry.from, recorded: open.holder };
      }
      close(entry.at, version);
      open = begin(entry.to, entry.at, entry.evidence, version, entry.load);
    } else if (entry.kind === "PieceFound" && !isSameHolder(entry.holder, open.holder)) {
      const isGapAlready = open.holder.kind === "whereabouts unknown";
      const until = isGapAlready ? entry.at : open.support;
      close(until, version);
      if (until < entry.at) stays.push(gap(until, entry.at, entry.evidence, version));
      open = begin(entry.holder, entry.at, entry.evidence, version);
    } else if (entry.kind === "PieceRetired") {
      retired = { at: entry.at };
    }
    if (supports(entry)) open.support = entry.at;
    if (entry.kind === "PieceFound" && entry.unpacked && open.evidence === "presumed")
      open.evidence = entry.evidence;
  }
  if (!open) return { stays: [] };
  const { support: _, ...last } = open;
  stays.push(last);
  return { stays, ...(retired ? { retiredAt: retired.at } : {}) };
}

function begin(
  holder: Holder,
  at: Instant,
  evidence: Evidence,
  fromVersion: number,
  load?: LoadId,
): OpenStay {
  return { holder, from: at, support: at, evidence, fromVersion, ...(load ? { load } : {}) };
}

function gap(from: Instant, to: Instant, evidence: Evidence, version: number): Stay {
  return { holder: WHEREABOUTS_UNKNOWN, from, to, evidence, fromVersion: version, toVersion: version };
}

/** What is not done with a retired piece any more. It can still be found, separated and described. */
function endsWithRetirement(entry: PieceEntry): boolean {
  return entry.kind === "PieceMoved" || entry.kind === "PieceRetired" || entry.kind === "LayerInstalled";
}

/** Which facts say where a piece was: those at which somebody had it in hand. */
function supports(entry: PieceEntry): boolean {
  if (!isSeen(entry.evidence)) return false;
  switch (entry.kind) {
    case "PieceFound":
    case "LayerInstalled":
    case "LayerFoundFitted":
    case "LayerSeparated":
    case "LabelsComparedByEye":
    case "PieceCleaned":
    case "PropertyFound":
      return true;
    default:
      return false;
  }
}

function faultBefore(version: number, entries: readonly Versioned<PieceEntry>[]): CustodyFault {
  const registered = entries.find(({ entry }) => entry.kind === "PieceRegistered");
  return {
    code: "before-registered",
    version,
    registeredAt: registered ? registered.entry.at : (0 as Instant),
  };
}

/** Gives the stay that holds at a moment; at a change of holder the later one. Undefined before the first. */
export function stayAt(stays: readonly Stay[], at: Instant): Stay | undefined {
  return stays.findLast((stay) => stay.from <= at && (stay.to === undefined || at < stay.to));
}
