import type { Evidence } from "../evidence.ts";
import type { MemberId, PieceId, Uuid } from "../ids.ts";
import type { KindBrief, Named, Names, WireInstant } from "../piece-view.ts";
import type { TagNumber } from "../tags/tag-number.ts";

/** Forward: what may have been reached. Backward: where it may have come from. */
export type TraceDirection = "forward" | "backward";

/** How things come into contact at a holder. Closed: all touch. Shared: likewise, ranked after. Apart: not followed. */
export type Carries = "closed" | "shared" | "apart";

/** What a trace starts from, as a person chose it. */
export type TraceStart =
  | { readonly kind: "pieces"; readonly pieces: readonly PieceId[]; readonly at: WireInstant }
  | {
      readonly kind: "member";
      readonly member: MemberId;
      readonly from: WireInstant;
      readonly to: WireInstant;
    }
  | { readonly kind: "load"; readonly load: Uuid }
  | { readonly kind: "machine"; readonly machine: Uuid; readonly from: WireInstant; readonly to: WireInstant }
  | { readonly kind: "place"; readonly place: Uuid; readonly from: WireInstant; readonly to: WireInstant }
  | {
      readonly kind: "provider";
      readonly provider: Uuid;
      readonly from: WireInstant;
      readonly to: WireInstant;
    }
  | { readonly kind: "event"; readonly event: Uuid };

export interface TraceCuts {
  /** Most steps, piece to carrier to piece. Contacts that lie deeper are `beyond`. */
  readonly hops: number;
  /** Where the walk ends: forward the last moment looked at, backward the first. */
  readonly until: WireInstant;
  readonly carriers: readonly ("closed" | "shared")[];
}

/** A holder as one lane of the picture. */
export interface TraceLane {
  /** Unique in this view: "place:ID", "member:ID", "load:ID", "in transit", "whereabouts unknown", … */
  readonly id: string;
  readonly holder: Named;
  /** Screen word under the name: "vehicle", "rack", "load 117, accepted", "wearer". */
  readonly sort: string;
  readonly carries: Carries;
  /** Apart: contacts through it are not followed. Never "carries nothing". */
  readonly isFollowed: boolean;
  /** Of a load: the lane of its machine's place, into which it is drawn. */
  readonly within?: string;
  /** Of a load. */
  readonly from?: WireInstant;
  readonly to?: WireInstant;
  /** When the holder itself was wiped or washed: each ends what it carried. */
  readonly cleanings: readonly WireInstant[];
}

/** Whether a piece was among those that the trace starts from, possibly reached, or neither, during some time. */
export type ThreadState = "was there" | "possibly reached" | "not reached";

/** One stay of a thread. A stay is cut where the state of its piece changes and where a load begins or ends. */
export interface ThreadStay {
  readonly lane: string;
  readonly from: WireInstant;
  /** Absent: still there. */
  readonly to?: WireInstant;
  readonly state: ThreadState;
  readonly evidence: Evidence;
  /** Told in bulk or assumed, not seen: presumed, imported, described, told by provider. Drawn and marked as such. */
  readonly isPresumed: boolean;
  readonly entry: EntryBehind;
}

/** A piece as one thread: its stays in the window, oldest first. */
export interface TraceThread {
  readonly piece: PieceId;
  readonly name: Named;
  readonly kind: KindBrief;
  readonly number?: TagNumber;
  /** Threads of one garment carry the same value and are bundled above 30 threads. */
  readonly garment: PieceId;
  readonly isRoot: boolean;
  /** The contact's rank; absent for a piece that the trace starts from. */
  readonly rank?: number;
  readonly stays: readonly ThreadStay[];
  /** Cleanings of the piece in the window; an accepted one ends what it carried. */
  readonly cleanings: readonly {
    readonly at: WireInstant;
    readonly how: string;
    readonly isAccepted: boolean;
  }[];
}

/** The entry of the ledger that a step rests on. */
export interface EntryBehind {
  readonly subject: Uuid;
  readonly version: number;
}

/** One step of a path: from one piece by way of one holder to another. Always told in the order of time. */
export interface PathLeg {
  readonly from: PieceId;
  readonly to: PieceId;
  /** Id of the lane by which it went. */
  readonly via: string;
  /** When the second piece may have been reached. Of a backward trace: the latest moment that leads to the start. */
  readonly at: WireInstant;
  /** How long the two were there together, in milliseconds; 0 when only the carrier links them. */
  readonly sharedMs: number;
  /** Entries that began the two stays. */
  readonly entries: readonly EntryBehind[];
  /** One of the two stays is known otherwise than by somebody who saw the piece. */
  readonly isPresumed: boolean;
}

export interface TracePath {
  readonly hops: number;
  readonly arrival: WireInstant;
  readonly legs: readonly PathLeg[];
}

/** What became of a possible contact. */
export const OUTCOMES = ["found", "isolated", "sent to wash", "cleared", "retired", "not found"] as const;
export type OutcomeWord = (typeof OUTCOMES)[number];

export interface OutcomeView {
  readonly outcome: OutcomeWord;
  readonly at: WireInstant;
  readonly by: Named;
  readonly evidence: Evidence;
  /** Why, in the person's words: needed for "cleared" and "not found". Null when the text was withdrawn. */
  readonly reason?: string | null;
  readonly version: number;
  /** Of "not found": somebody saw the piece since. It has no outcome any more. */
  readonly seenSince?: WireInstant;
}

/** One piece that was possibly reached (forward) or may have been the source (backward). */
export interface TraceContact {
  /** From 1: by steps, closed before shared carriers, first moment, piece. Its knot in the picture. */
  readonly rank: number;
  readonly piece: PieceId;
  readonly name: Named;
  readonly kind: KindBrief;
  readonly number?: TagNumber;
  readonly hops: number;
  /** Kind of the carrier of its last step. */
  readonly carries: "closed" | "shared";
  /** First moment at which it may have been reached by its rank's path; backward: the latest moment. */
  readonly firstMoment: WireInstant;
  /** The path with the fewest steps: it gives the rank. */
  readonly path: TracePath;
  /** The path that arrives first (backward: that leaves last), where that is another one. */
  readonly earliestPath?: TracePath;
  /** Time shared with the piece before it on its path, in milliseconds; 0 when only the carrier links them. */
  readonly sharedMs: number;
  /** Some step of the path rests on what nobody saw. */
  readonly isPresumed: boolean;
  /** Who has it now, since when. */
  readonly nowWith: Named;
  readonly nowSince: WireInstant;
  /** Of a piece with a member: for the call-in list. */
  readonly station?: Named;
  readonly shift?: string;
  readonly lastSeenAt?: WireInstant;
  readonly retiredAt?: WireInstant;
  /** The first accepted cleaning after its first moment, else the first wash. It stays on the list. */
  readonly washedSince?: { readonly at: WireInstant; readonly how: string; readonly isAccepted: boolean };
  readonly outcome?: OutcomeView;
}

/** A time of a piece on the list for which nobody recorded who had it: what it met then cannot be excluded. */
export interface CannotExclude {
  readonly piece: PieceId;
  readonly name: Named;
  readonly from: WireInstant;
  readonly to?: WireInstant;
  readonly why: "whereabouts unknown" | "in transit";
  readonly entry: EntryBehind;
}

/** A holder that pieces of the trace were at, through which nothing was followed. */
export interface NotFollowed {
  readonly lane: string;
  readonly holder: Named;
  readonly carries: Carries;
  readonly pieces: readonly PieceId[];
}

/** A trace as it was kept, with what was done about it. */
export interface KeptTrace {
  readonly id: Uuid;
  readonly version: number;
  readonly name: string;
  readonly isDrill: boolean;
  readonly keptAt: WireInstant;
  readonly keptBy: Named;
  /** Position in the record up to which it was read. */
  readonly position: number;
  readonly status: "open" | "closed";
  readonly closedAt?: WireInstant;
  /** Acts recorded since then that touch what it read. Not empty: the trace is older than the record. */
  readonly changedSince: readonly {
    readonly position: number;
    readonly at: WireInstant;
    readonly recordedAt: WireInstant;
    readonly command: string;
    readonly subject: Uuid;
  }[];
  /** What walking it anew on today's record would change; absent while nothing touches it. */
  readonly anew?: {
    readonly added: readonly Named[];
    readonly gone: readonly Named[];
    readonly otherwise: readonly Named[];
  };
  /** Of a drill: how long it took, and the share of the truly reached that was found. */
  readonly drill?: {
    readonly toListMs: number;
    readonly toLastOutcomeMs?: number;
    readonly foundShare?: number;
  };
}

/** Everything that the trace screen, its print and its table show. */
export interface TraceView {
  readonly direction: TraceDirection;
  readonly start: TraceStart;
  /** "Mill Street fire", "Washer 1", "Coat shell C7K3 F92C XTKK". */
  readonly startName: string;
  readonly cuts: TraceCuts;
  /** What the picture spans. */
  readonly from: WireInstant;
  readonly to: WireInstant;
  readonly lanes: readonly TraceLane[];
  /** Roots first, then by rank. */
  readonly threads: readonly TraceThread[];
  readonly roots: readonly PieceId[];
  readonly contacts: readonly TraceContact[];
  /** What more steps would reach, by count and only when asked for: an upper bound, shown apart. */
  readonly beyond?: { readonly pieces: number; readonly isUpperBound: true };
  readonly cannotExclude: readonly CannotExclude[];
  readonly notFollowed: readonly NotFollowed[];
  /** Of the record that was read. */
  readonly position: number;
  readonly rowsRead: number;
  readonly kept?: KeptTrace;
  readonly names: Names;
}

/** A kept trace in the list of them. */
export interface TraceListed {
  readonly id: Uuid;
  readonly name: string;
  readonly direction: TraceDirection;
  readonly isDrill: boolean;
  readonly keptAt: WireInstant;
  readonly keptBy: Named;
  readonly contacts: number;
  /** Contacts with an outcome. */
  readonly settled: number;
  readonly closedAt?: WireInstant;
}
