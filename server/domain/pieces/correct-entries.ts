import type { Holder } from "../custody/holder.ts";
import type { PieceId } from "../ids.ts";
import type { Refusal } from "../refusal.ts";
import type { Instant } from "../time.ts";
import type { EntryCorrected, PieceEntry, Versioned } from "./piece-entries.ts";

/** What may be said in place of an entry: another holder or another time, or that it did not happen. */
export interface Correction {
  readonly piece: PieceId;
  readonly version: number;
  readonly to?: Holder;
  readonly at?: Instant;
  readonly void?: true;
}

/** Entries that stand for something done to a piece; what is told of it is described anew instead. */
type Correctable = Exclude<NonNullable<EntryCorrected["instead"]>, undefined>;
const CORRECTABLE = new Set<PieceEntry["kind"]>([
  "PieceMoved",
  "PieceFound",
  "LayerInstalled",
  "LayerFoundFitted",
  "LayerSeparated",
  "PieceCleaned",
  "PieceRetired",
  "HoldPlaced",
  "HoldLifted",
]);

/**
 * Makes the entry that corrects another of the same piece. Refuses an entry that is not there, that is corrected
 * already, or that is of another sort. Whether the corrected line of stays holds is seen when it is folded.
 */
export function correctEntry(
  entries: readonly Versioned<PieceEntry>[],
  correction: Correction,
  at: Instant,
): EntryCorrected | Refusal {
  const { piece: subject, version } = correction;
  const refuse = (why: Extract<Refusal, { code: "cannot-correct" }>["why"]): Refusal => ({
    code: "cannot-correct",
    subject,
    version,
    why,
  });
  const target = entries.find((one) => one.version === version)?.entry;
  if (!target) return refuse("no such entry");
  if (entries.some(({ entry }) => entry.kind === "EntryCorrected" && entry.corrects === version)) {
    return refuse("corrected already");
  }
  const standing = target.kind === "EntryCorrected" ? target.instead : target;
  if (!standing || !CORRECTABLE.has(standing.kind)) return refuse("other kind");
  const fact = { kind: "EntryCorrected" as const, at, evidence: "described" as const, corrects: version };
  if (correction.void) return fact;
  const instead = corrected(standing as Correctable, correction);
  return instead ? { ...fact, instead } : refuse("other kind");
}

function corrected(entry: Correctable, { to, at }: Correction): Correctable | undefined {
  const moment = at === undefined ? {} : { at };
  if (entry.kind === "PieceMoved") return { ...entry, ...moment, ...(to ? { to } : {}) };
  if (entry.kind === "PieceFound") return { ...entry, ...moment, ...(to ? { holder: to } : {}) };
  return to || at === undefined ? undefined : { ...entry, at };
}
