import type { Holder } from "../custody/holder.ts";
import type { AccountId, PieceId } from "../ids.ts";
import type { Refusal } from "../refusal.ts";
import type { Role } from "../register/account.ts";
import type { Instant } from "../time.ts";
import { LIFTED_BY } from "./hold-rules.ts";
import type { EntryCorrected, PieceEntry, Versioned } from "./piece-entries.ts";

/** What may be said in place of an entry: another holder or another time, or that it did not happen. */
export interface Correction {
  readonly piece: PieceId;
  readonly version: number;
  readonly to?: Holder;
  readonly at?: Instant;
  readonly void?: true;
}

/** Who corrects, in which role, and when. */
export interface Corrector {
  readonly at: Instant;
  readonly by: AccountId;
  readonly role: Role;
}

/** Those who may retire a piece. */
const RETIRES: readonly Role[] = ["inspector", "program manager"];

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

/** Tells whether an entry is of a sort that a correction can stand in for. */
export function isCorrectable({ kind }: PieceEntry): boolean {
  return CORRECTABLE.has(kind);
}

/**
 * Makes the entry that corrects another of the same piece. Refuses an entry that is not there, that is corrected
 * already, that is of another sort, or that is not this person's to undo: a hold is corrected by whoever placed it or
 * may lift it, a retirement by those who retire. Whether the corrected line of stays holds is seen when it is folded.
 */
export function correctEntry(
  entries: readonly Versioned<PieceEntry>[],
  correction: Correction,
  { at, by, role }: Corrector,
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
  const notYours = refuseRole(entries, target, subject, { by, role });
  if (notYours) return notYours;
  const fact = { kind: "EntryCorrected" as const, at, evidence: "described" as const, corrects: version };
  if (correction.void) return fact;
  const instead = corrected(standing as Correctable, correction);
  return instead ? { ...fact, instead } : refuse("other kind");
}

function refuseRole(
  entries: readonly Versioned<PieceEntry>[],
  target: PieceEntry,
  subject: PieceId,
  { by, role }: Omit<Corrector, "at">,
): Refusal | undefined {
  if (target.kind === "PieceRetired" && !RETIRES.includes(role)) return { code: "role", needs: RETIRES };
  const lifted = target.kind === "HoldLifted" ? target.hold : undefined;
  const placed = lifted === undefined ? target : entries.find(({ version }) => version === lifted)?.entry;
  if (placed?.kind !== "HoldPlaced") return undefined;
  const may = LIFTED_BY[placed.hold];
  if (may.includes(role) || (target === placed && placed.by === by)) return undefined;
  return { code: "not-yours-to-lift", subject, hold: placed.hold, who: may.join(", ") };
}

function corrected(entry: Correctable, { to, at }: Correction): Correctable | undefined {
  const moment = at === undefined ? {} : { at };
  if (entry.kind === "PieceMoved") {
    // What went somewhere else went there without the load.
    const { load, ...move } = entry;
    return { ...move, ...moment, ...(to ? { to } : load ? { load } : {}) };
  }
  if (entry.kind === "PieceFound") return { ...entry, ...moment, ...(to ? { holder: to } : {}) };
  return to || at === undefined ? undefined : { ...entry, at };
}
