import type { Evidence } from "../evidence.ts";
import type {
  AccountId,
  EventId,
  LoadId,
  MachineId,
  MemberId,
  PieceId,
  PlaceId,
  ProviderId,
  Uuid,
} from "../ids.ts";
import type { Versioned } from "../pieces/piece-entries.ts";
import type { Instant } from "../time.ts";
import type { Carries, OutcomeWord, TraceDirection } from "./trace-view.ts";

interface During {
  readonly from: Instant;
  readonly to: Instant;
}

/** What a trace starts from. Of a holder: what was there during a time. */
export type TraceFrom =
  | { readonly kind: "pieces"; readonly pieces: readonly PieceId[]; readonly at: Instant }
  | ({ readonly kind: "member"; readonly member: MemberId } & During)
  | { readonly kind: "load"; readonly load: LoadId }
  | ({ readonly kind: "machine"; readonly machine: MachineId } & During)
  | ({ readonly kind: "place"; readonly place: PlaceId } & During)
  | ({ readonly kind: "provider"; readonly provider: ProviderId } & During)
  | { readonly kind: "event"; readonly event: EventId };

/** What is asked of a trace over the record. */
export interface TraceAsked {
  readonly start: TraceFrom;
  readonly direction: TraceDirection;
  readonly hops: number;
  /** The far end of the window; left out, the horizon of 30 days from the start. */
  readonly until?: Instant;
  readonly carriers: readonly Exclude<Carries, "apart">[];
  /** Codes of contaminants, where the start is no event: they decide which cleanings end what a piece carried. */
  readonly kinds?: readonly string[];
}

/** A possible contact as it was kept. */
export interface KeptContact {
  readonly piece: PieceId;
  readonly hops: number;
  readonly at: Instant;
}

/** A trace with what it read and found. */
export interface TraceFacts extends TraceAsked {
  readonly name: string;
  readonly isDrill: boolean;
  readonly roots: readonly { readonly piece: PieceId; readonly at: Instant }[];
  /** The window that was looked at. */
  readonly from: Instant;
  readonly to: Instant;
  /** Position in the record up to which it was read. */
  readonly position: number;
  readonly read: { readonly pieces: readonly PieceId[]; readonly holders: readonly Uuid[] };
  readonly contacts: readonly KeptContact[];
  /** How long the list took to make, in milliseconds. */
  readonly tookMs: number;
}

export type TraceEntry =
  | { readonly kind: "TraceKept"; readonly at: Instant; readonly by: AccountId; readonly trace: TraceFacts }
  | {
      readonly kind: "OutcomeRecorded";
      readonly at: Instant;
      readonly by: AccountId;
      readonly evidence: Evidence;
      readonly piece: PieceId;
      readonly outcome: OutcomeWord;
    }
  | { readonly kind: "TraceClosed"; readonly at: Instant; readonly by: AccountId }
  | { readonly kind: "TraceReopened"; readonly at: Instant; readonly by: AccountId };

export interface KeptOutcome {
  readonly piece: PieceId;
  readonly outcome: OutcomeWord;
  readonly at: Instant;
  readonly by: AccountId;
  readonly evidence: Evidence;
  readonly version: number;
}

export interface TraceRecord {
  readonly id: Uuid;
  readonly version: number;
  readonly keptAt: Instant;
  readonly keptBy: AccountId;
  readonly facts: TraceFacts;
  /** The last outcome of each piece that has one. */
  readonly outcomes: readonly KeptOutcome[];
  readonly closedAt?: Instant;
}

/** Folds a trace's entries: of each piece the last outcome holds. Undefined before it was kept. */
export function foldTrace(id: Uuid, entries: readonly Versioned<TraceEntry>[]): TraceRecord | undefined {
  let kept: Extract<TraceEntry, { kind: "TraceKept" }> | undefined;
  let closedAt: Instant | undefined;
  const outcomes = new Map<PieceId, KeptOutcome>();
  for (const { version, entry } of entries) {
    switch (entry.kind) {
      case "TraceKept":
        kept = entry;
        break;
      case "OutcomeRecorded": {
        const { piece, outcome, at, by, evidence } = entry;
        outcomes.set(piece, { piece, outcome, at, by, evidence, version });
        break;
      }
      case "TraceClosed":
        closedAt = entry.at;
        break;
      case "TraceReopened":
        closedAt = undefined;
        break;
      default:
        entry satisfies never;
    }
  }
  return (
    kept && {
      id,
      version: entries.at(-1)?.version ?? 0,
      keptAt: kept.at,
      keptBy: kept.by,
      facts: kept.trace,
      outcomes: [...outcomes.values()],
      ...(closedAt === undefined ? {} : { closedAt }),
    }
  );
}
