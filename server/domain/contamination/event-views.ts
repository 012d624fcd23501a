import type { Evidence } from "../evidence.ts";
import type { EventId, MemberId, PieceId } from "../ids.ts";
import type { PieceListed } from "../page-views.ts";
import type { Named, WireInstant } from "../piece-view.ts";
import type { HowCleaned } from "../pieces/piece-entries.ts";
import type { PlaceBrief } from "../scan-answer.ts";
import type { ContaminantRule } from "./contaminant-rule.ts";

/** An event in a list; it names nobody. */
export interface EventListed {
  readonly id: EventId;
  readonly name: string;
  readonly from: WireInstant;
  readonly to: WireInstant;
  readonly place?: Named;
  readonly where?: string;
  readonly incident?: string;
  readonly kinds: readonly { readonly code: string; readonly name: string }[];
  readonly members: number;
  readonly pieces: number;
  /** Pieces whose hold of this event stands. */
  readonly held: number;
}

export interface MemberAtEventShown {
  readonly id: MemberId;
  /** The name, or "Member 0214" for whoever is not shown names. */
  readonly name: string;
  readonly isNamed: boolean;
  readonly station?: Named;
  readonly set?: string;
}

export interface PieceAtEvent extends PieceListed {
  readonly evidence: Evidence;
  /** The hold of this event that stands; its entry's number. */
  readonly hold?: number;
  /** Kinds that no cleaning since has ended; by their codes. */
  readonly open: readonly string[];
  /** The place that its place is in. */
  readonly within?: Named;
}

export interface EventPage {
  readonly event: EventListed;
  readonly version: number;
  readonly timeZone: string;
  readonly note?: string;
  readonly members: readonly MemberAtEventShown[];
  readonly pieces: readonly PieceAtEvent[];
  /** What its kinds ask for, by today's policy. */
  readonly rules: readonly ContaminantRule[];
  /** Open places of the sort "isolation". */
  readonly isolation: readonly PlaceBrief[];
}

/** What a member held over an interval, by set: the sets that may have been worn. */
export interface HeldThen {
  readonly member: MemberId;
  readonly name: string;
  /** Pieces that belong to no set come with each. */
  readonly sets: readonly { readonly set: string; readonly pieces: readonly PieceId[] }[];
  readonly loose: readonly PieceId[];
}

/** What a contamination hold still asks for, so that whoever reads it knows what comes next. */
export interface HoldAsks {
  readonly version: number;
  readonly event: Named;
  readonly open: readonly {
    readonly code: string;
    readonly name: string;
    /** Cleanings that end it; empty where a person decides, absent where the department has not set it. */
    readonly endedBy?: readonly HowCleaned[];
  }[];
}

/** That a member was listed at an event, on the member's own page. */
export interface ListedAtEvent {
  readonly event: Named;
  readonly from: WireInstant;
  readonly to: WireInstant;
  readonly where?: string;
  readonly incident?: string;
  readonly set?: string;
  readonly kinds: readonly string[];
}

/** One change of a rule: what it said from then on. */
export interface RuleChange {
  readonly version: number;
  readonly at: WireInstant;
  readonly by: Named;
  readonly rule: ContaminantRule;
  readonly note?: string;
}

export interface ContaminantsShown {
  readonly rules: readonly (ContaminantRule & {
    /** Whether the department set it, or it is as the program came. */
    readonly isOwn: boolean;
  })[];
  /** Oldest first. */
  readonly history: readonly RuleChange[];
}
