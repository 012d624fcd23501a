import type { Evidence } from "../evidence.ts";
import type { LoadId, MachineId, PlaceId, ProgrammeId, ProviderId } from "../ids.ts";
import type { HowCleaned, Versioned } from "../pieces/piece-entries.ts";
import type { Instant } from "../time.ts";
import type { Temperature } from "./machine.ts";

/** Where a load ran: in a machine of the department, or at a provider. */
export type LoadRan =
  | {
      readonly in: "machine";
      readonly machine: MachineId;
      readonly place: PlaceId;
      readonly programme?: ProgrammeId;
    }
  | { readonly in: "provider"; readonly provider: ProviderId; readonly document: string };

export const LOAD_OUTCOMES = ["as programmed", "aborted"] as const;
export type LoadOutcome = (typeof LOAD_OUTCOMES)[number];

export type LoadEntry =
  | {
      readonly kind: "LoadStarted";
      /** When it began; of a load remembered late the earliest that it can have begun. */
      readonly at: Instant;
      readonly evidence: Evidence;
      readonly ran: LoadRan;
      /** What it does to its pieces; absent for drying. Kept here, since a programme can be described anew. */
      readonly how?: HowCleaned;
      /** Codes of what would have stopped it, and did not: by the program manager's reason, or since it ran already. */
      readonly despite?: readonly string[];
      /** Of a load remembered late: when it was said to have ended, and how far that can be off. */
      readonly said?: { readonly at: Instant; readonly minutes: number };
    }
  | {
      readonly kind: "LoadEnded";
      /** When it ended; of a load remembered late the latest that it can have ended. */
      readonly at: Instant;
      readonly evidence: Evidence;
      readonly outcome: LoadOutcome;
      /** What was read at the machine, where somebody read it. */
      readonly read?: Temperature;
    }
  /** Takes back an earlier entry of the same load, as a correction does on a piece. Both stay. */
  | { readonly kind: "LoadEntryTakenBack"; readonly at: Instant; readonly takesBack: number };

export interface LoadState {
  readonly id: LoadId;
  readonly version: number;
  readonly ran: LoadRan;
  readonly how?: HowCleaned;
  readonly startedAt: Instant;
  readonly endedAt?: Instant;
  readonly outcome?: LoadOutcome;
  readonly read?: Temperature;
  readonly despite: readonly string[];
  readonly said?: { readonly at: Instant; readonly minutes: number };
  readonly evidence: Evidence;
}

/** Folds a load's entries. Undefined before it was started, and once its start was taken back. */
export function foldLoad(id: LoadId, entries: readonly Versioned<LoadEntry>[]): LoadState | undefined {
  const takenBack = new Set(
    entries.flatMap(({ entry }) => (entry.kind === "LoadEntryTakenBack" ? [entry.takesBack] : [])),
  );
  const standing = entries.filter(({ version }) => !takenBack.has(version)).map(({ entry }) => entry);
  const start = standing.findLast((entry) => entry.kind === "LoadStarted");
  if (!start) return undefined;
  const end = standing.findLast((entry) => entry.kind === "LoadEnded");
  return {
    id,
    version: entries.at(-1)?.version ?? 0,
    ran: start.ran,
    startedAt: start.at,
    evidence: start.evidence,
    despite: start.despite ?? [],
    ...(start.how ? { how: start.how } : {}),
    ...(start.said ? { said: start.said } : {}),
    ...(end ? { endedAt: end.at, outcome: end.outcome } : {}),
    ...(end?.read ? { read: end.read } : {}),
  };
}
