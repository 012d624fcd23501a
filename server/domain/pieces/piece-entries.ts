import type { Holder } from "../custody/holder.ts";
import type { Evidence } from "../evidence.ts";
import type { AccountId, EventId, LoadId, MemberId, ModelId, PieceId, Uuid } from "../ids.ts";
import type { LabelVerdict } from "../label-check/label-verdict.ts";
import type { Instant, LocalDate } from "../time.ts";
import type { LabelReading, MakersLabel } from "./label.ts";

/** Why a piece changes hands. The words are the trade's; the set grows with later kinds of work. */
export const PURPOSES = [
  "transfer",
  "turn in",
  "issue",
  "to provider",
  "from provider",
  "hand over",
  "repair",
  "storage",
  "load",
] as const;
export type Purpose = (typeof PURPOSES)[number];

export const CONDITIONS = ["new", "used, no finding", "used, findings on record", "not looked at"] as const;
export type Condition = (typeof CONDITIONS)[number];

/**
 * Ways of cleaning, each under its own term: they have separate targets since the 2020 revision (facts.md 1.3).
 * Preliminary exposure reduction is the rinse or brush at the scene.
 */
export const HOW_CLEANED = [
  "preliminary exposure reduction",
  "advanced cleaning",
  "specialised cleaning",
  "sanitisation",
  "disinfection",
] as const;
export type HowCleaned = (typeof HOW_CLEANED)[number];

export const HOLD_KINDS = [
  "differs",
  "finding",
  "contamination",
  "lost",
  "makers notice",
  "evidence",
  "identify",
] as const;
export type HoldKind = (typeof HOLD_KINDS)[number];

export interface Owner {
  readonly kind: "department" | "member" | "provider" | "other department" | "maker";
  readonly id?: Uuid;
}

/** The member's use that a piece belongs to, with the set's name. */
export interface Assignment {
  readonly member: MemberId;
  readonly set: string;
}

/** What is on file of a piece beside its label. */
export interface PieceFile {
  readonly owner: Owner;
  readonly funding?: string;
  readonly purchaseOrder?: string;
  readonly priceCents?: number;
  readonly inServiceOn?: LocalDate;
}

interface Fact {
  /** When it happened. */
  readonly at: Instant;
  readonly evidence: Evidence;
}

export interface PieceRegistered extends Fact {
  readonly kind: "PieceRegistered";
  readonly pieceKind: string;
  readonly model?: ModelId;
  readonly label: MakersLabel;
  readonly reading: LabelReading;
  readonly file: PieceFile;
  readonly holder: Holder;
  readonly assignment?: Assignment;
}
/** Values replace what was on record; `null` says that it is unknown after all. */
export interface PieceDescribed extends Fact {
  readonly kind: "PieceDescribed";
  readonly label: { readonly [Field in keyof MakersLabel]?: MakersLabel[Field] | null };
  readonly reading?: LabelReading;
  readonly model?: ModelId | null;
  readonly file: { readonly [Field in keyof PieceFile]?: PieceFile[Field] | null };
}
export interface PieceMoved extends Fact {
  readonly kind: "PieceMoved";
  readonly from: Holder;
  readonly to: Holder;
  readonly purpose: Purpose;
  readonly releasedBy?: Uuid;
  readonly receivedBy?: Uuid;
  readonly condition?: Condition;
  readonly soiled?: boolean;
  /** It came in wet, and is on its way to dry. */
  readonly wet?: true;
  /** Somebody went through its pockets at intake. */
  readonly pockets?: "checked";
  /** It was put into a machine, or went through a provider's, with this load. */
  readonly load?: LoadId;
  /** The shell in which it went along. */
  readonly within?: PieceId;
  readonly fitSeenBy?: Uuid;
  readonly document?: string;
  readonly assignment?: Assignment;
  /** Codes of what the department's settings let pass with a word. */
  readonly despite?: readonly string[];
}
/** As found: never refused for policy. `despite` keeps what would have stopped an ordinary act. */
export interface PieceFound extends Fact {
  readonly kind: "PieceFound";
  readonly holder: Holder;
  readonly takenBy?: MemberId;
  /** Taken out of its bag, which makes real what was presumed in it. */
  readonly unpacked?: true;
  readonly despite?: readonly string[];
}
export interface PieceCleaned extends Fact {
  readonly kind: "PieceCleaned";
  readonly how: HowCleaned;
  /** The load at whose end it was cleaned; absent for what was done by hand or on scene. */
  readonly load?: LoadId;
  /** Codes of contaminants on the piece that this cleaning does not end, by the policy of that day. */
  readonly leavesOpen?: readonly string[];
}
/** The piece was at a contamination event: it met what was there. Said again, the last one holds. */
export interface PieceMet extends Fact {
  readonly kind: "PieceMet";
  readonly event: EventId;
  readonly from: Instant;
  readonly to: Instant;
}
/** It was not at that event after all. */
export interface PieceNotMet extends Fact {
  readonly kind: "PieceNotMet";
  readonly event: EventId;
}
/** Something of a person's that was in it. What it is stands in the entry's text; the receipt names it. */
export interface PropertyFound extends Fact {
  readonly kind: "PropertyFound";
  readonly receipt: string;
}
export interface PropertyGivenBack extends Fact {
  readonly kind: "PropertyGivenBack";
  readonly receipt: string;
  readonly to?: MemberId;
}
export interface LayerInstalled extends Fact {
  readonly kind: "LayerInstalled";
  readonly shell: PieceId;
  readonly layerKind: string;
  readonly verdict: LabelVerdict;
  readonly acceptance?: Uuid;
}
export interface LayerFoundFitted extends Fact {
  readonly kind: "LayerFoundFitted";
  readonly shell: PieceId;
  readonly layerKind: string;
  readonly verdict: LabelVerdict;
}
export interface LayerSeparated extends Fact {
  readonly kind: "LayerSeparated";
  readonly shell: PieceId;
}
/** An inspector read both labels side by side and found that they name the same garment. */
export interface LabelsComparedByEye extends Fact {
  readonly kind: "LabelsComparedByEye";
  readonly shell: PieceId;
  readonly by: AccountId;
}
export interface HoldPlaced extends Fact {
  readonly kind: "HoldPlaced";
  readonly hold: HoldKind;
  readonly by: AccountId;
  readonly with?: PieceId;
  readonly event?: EventId;
}
export interface HoldLifted extends Fact {
  readonly kind: "HoldLifted";
  readonly hold: number;
  readonly because: "separated" | "decided" | "cleaned" | "not met";
}
export interface ForeignCodeBound extends Fact {
  readonly kind: "ForeignCodeBound";
  readonly code: string;
}
export interface PieceAssigned extends Fact {
  readonly kind: "PieceAssigned";
  readonly assignment: Assignment | null;
}
export interface PieceRetired extends Fact {
  readonly kind: "PieceRetired";
  readonly method: string;
}
/** Names the entry that it corrects. Both stay; the fold takes what stands here, or nothing, in its place. */
export interface EntryCorrected extends Fact {
  readonly kind: "EntryCorrected";
  readonly corrects: number;
  readonly instead?: PieceMoved | PieceFound | LayerInstalled | LayerSeparated | PieceRetired | PieceCleaned;
}

export type PieceEntry =
  | PieceRegistered
  | PieceDescribed
  | PieceMoved
  | PieceFound
  | PieceCleaned
  | PieceMet
  | PieceNotMet
  | PropertyFound
  | PropertyGivenBack
  | LayerInstalled
  | LayerFoundFitted
  | LayerSeparated
  | LabelsComparedByEye
  | HoldPlaced
  | HoldLifted
  | ForeignCodeBound
  | PieceAssigned
  | PieceRetired
  | EntryCorrected;

/** An entry with its place among the entries of its subject, counted from 1. */
export interface Versioned<Entry> {
  readonly version: number;
  readonly entry: Entry;
}
