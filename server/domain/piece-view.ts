import type { HoldAsks } from "./contamination/event-views.ts";
import type { Evidence } from "./evidence.ts";
import type { AccountId, EventId, ModelId, PieceId, Uuid } from "./ids.ts";
import type { AcceptedCombination } from "./label-check/accepted-combination.ts";
import type { LayerNeed } from "./label-check/completeness.ts";
import type { ComparedByEye, LabelCheck } from "./label-check/label-verdict.ts";
import type { ReadyToIssue } from "./label-check/ready-to-issue.ts";
import type { LabelReading, MakersLabel, ModelTakes } from "./pieces/label.ts";
import type { HoldKind, Owner, PieceEntry } from "./pieces/piece-entries.ts";
import type { Garment, LayerRole, RuleFamily } from "./register/kind.ts";
import type { TagEntry } from "./tags/tag-entries.ts";
import type { TagNumber } from "./tags/tag-number.ts";
import type { TagState } from "./tags/tag-state.ts";
import type { LocalDate } from "./time.ts";

/** An instant on the wire: ISO 8601 in UTC with milliseconds and `Z`. */
export type WireInstant = string;

/** Whatever can be named on a screen. A person whose name was removed is named by number, else `name removed`. */
export interface Named {
  readonly kind:
    | "place"
    | "member"
    | "provider"
    | "outside"
    | "in transit"
    | "whereabouts unknown"
    | "account"
    | "piece"
    | "model"
    | "contamination-event"
    | "machine";
  readonly id?: Uuid;
  readonly name: string;
  /** Of a place: the place that it is within. Of a member: the number. Of an account: the role. Of a piece: a number. */
  readonly detail?: string;
}
/** Names of everything that the ids in an answer stand for. An id that is not in it has no name on record. */
export type Names = Readonly<Record<string, Named>>;

export interface KindBrief {
  readonly code: string;
  readonly name: string;
  readonly family: RuleFamily;
  readonly garment?: Garment;
  readonly layer?: LayerRole;
}

/** One piece in a few words, with all that a label check of it needs. */
export interface PieceBrief {
  readonly id: PieceId;
  readonly version: number;
  readonly kind: KindBrief;
  /** A live tag's number, the usual position first; absent when no tag of it is live. */
  readonly number?: TagNumber;
  readonly label: MakersLabel;
  readonly labelReading: LabelReading;
  readonly model?: ModelId;
  readonly holder: Named;
  readonly heldSince: WireInstant;
  readonly soiled: boolean;
  readonly soiledSince?: WireInstant;
  /** It came in wet and was not moved on since. */
  readonly wet?: true;
  readonly washes: number;
  readonly retiredAt?: WireInstant;
  readonly holds: readonly HoldView[];
}

/** A hold that stands now; `version` is the entry that placed it and names it. */
export interface HoldView {
  readonly version: number;
  readonly kind: HoldKind;
  readonly with?: PieceId;
  /** The contamination event behind it; its name is in `names`. */
  readonly event?: EventId;
  readonly placedAt: WireInstant;
  readonly placedBy: AccountId;
}

/** What a shell and a layer are fitted as, with the label check of today's record. */
export interface FittingView {
  readonly piece: PieceBrief;
  readonly layerKind: string;
  readonly since: WireInstant;
  readonly evidence: Evidence;
  /** Absent for a garment whose labels are not compared: a coverall. */
  readonly check?: LabelCheck;
}

export interface TagView {
  readonly number: TagNumber;
  readonly state: TagState["status"];
  readonly position?: string;
  readonly attachedAt?: WireInstant;
  readonly supersededBy?: TagNumber;
  /** When it was superseded, lost, destroyed or made void. */
  readonly endedAt?: WireInstant;
}

/** An entry of a piece or of one of its tags. Times inside `entry` are milliseconds, as the ledger holds them. */
export type EntryBody =
  | {
      readonly subjectKind: "piece";
      readonly subject: Uuid;
      readonly version: number;
      readonly entry: PieceEntry;
    }
  | {
      readonly subjectKind: "tag";
      readonly subject: Uuid;
      readonly version: number;
      readonly entry: TagEntry;
    };

/** What one person did at one moment, as far as it concerns this piece. */
export interface ActView {
  readonly act: Uuid;
  readonly position: number;
  readonly command: string;
  readonly at: WireInstant;
  readonly recordedAt: WireInstant;
  readonly by: Named;
  readonly entries: readonly EntryBody[];
}

/** Any scan of the piece, or a move that somebody saw. */
export interface LastSeen {
  readonly at: WireInstant;
  readonly how: "scan" | "record";
  readonly by?: Named;
  readonly device?: string;
  /** The holder that it was recorded with then, where an entry says so. */
  readonly where?: Named;
}

/**
 * What a label check of this piece with another one on the bench rests on beside the two labels, so that it can run
 * where it is shown: put the facts of both pieces together (`checkBriefs`).
 */
export interface CheckFacts {
  /** Rows of the model table for this shell, or for the shell that this layer is in. */
  readonly takes: readonly ModelTakes[];
  readonly acceptedCombinations: readonly AcceptedCombination[];
  readonly comparedByEye: readonly ComparedByEye[];
}

/** Everything that the bench shows of one piece. */
export interface PieceView extends PieceBrief {
  /** The row of the model table that `model` names. */
  readonly modelRow?: { readonly maker: string; readonly name: string };
  readonly tags: readonly TagView[];
  readonly foreignCodes: readonly string[];
  /** The place that its place is in, or the member's station. */
  readonly within?: Named;
  readonly assignment?: { readonly member: Named; readonly station?: Named; readonly set: string };
  readonly owner: Owner & { readonly name?: string };
  readonly inServiceOn?: LocalDate;
  readonly funding?: string;
  readonly purchaseOrder?: string;
  readonly priceCents?: number;
  readonly registeredAt: WireInstant;
  /** Of a layer: the shell in which it is fitted now. */
  readonly fittedIn?: FittingView;
  /** Of a shell: the layers fitted in it now. */
  readonly fitted: readonly FittingView[];
  /** Of a shell: what a complete garment of its model or kind needs and lacks. */
  readonly missing: readonly LayerNeed[];
  /** Of a layer that is fitted: of the whole garment. Ids in the reasons are in `names`. */
  readonly ready: ReadyToIssue<HoldView>;
  /** What its contamination holds still ask for; absent where there is none. */
  readonly asks?: readonly HoldAsks[];
  /** The last five acts by its own entries and the last entry of each tag, newest first. */
  readonly lastActs: readonly ActView[];
  readonly lastSeen?: LastSeen;
  readonly forLabelCheck: CheckFacts;
  /** Names of what holds, reasons and the last acts' entries speak of. */
  readonly names: Names;
}
