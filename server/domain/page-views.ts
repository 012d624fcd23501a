import type { ListedAtEvent } from "./contamination/event-views.ts";
import type { Evidence } from "./evidence.ts";
import type { AccountId, PieceId, Uuid } from "./ids.ts";
import type { LabelVerdict } from "./label-check/label-verdict.ts";
import type { ReadyToIssue } from "./label-check/ready-to-issue.ts";
import type { EntryBody, HoldView, KindBrief, Named, Names, TagView, WireInstant } from "./piece-view.ts";
import type { LabelReading, MakersLabel } from "./pieces/label.ts";
import type { Assignment } from "./pieces/piece-entries.ts";
import type { MemberBrief, PlaceBrief } from "./scan-answer.ts";
import type { TagNumber } from "./tags/tag-number.ts";
import type { LocalDate } from "./time.ts";

/** The stand of the ledger that an answer is of, where it is not the newest. */
export interface KnownAt {
  readonly position: number;
  readonly recordedAt: WireInstant;
}

/** One stay of a trail. A stay with whereabouts unknown is a custody gap: nobody recorded who had the piece. */
export interface StayView {
  readonly holder: Named;
  readonly from: WireInstant;
  readonly to?: WireInstant;
  readonly evidence: Evidence;
  readonly isGap: boolean;
  readonly fromVersion: number;
  readonly toVersion?: number;
}

/** One time that the piece was fitted in a shell, or that a layer was fitted in it. */
export interface FittingSpan {
  readonly role: "was in" | "held";
  readonly piece: Named;
  readonly layerKind: string;
  readonly from: WireInstant;
  readonly to?: WireInstant;
  readonly verdict: LabelVerdict;
  readonly evidence: Evidence;
}

/** One entry of a trail. `subject` is the piece, one of its tags, or a layer whose entry names this shell. */
export type TrailEntry = EntryBody & {
  readonly act: Uuid;
  readonly position: number;
  readonly command: string;
  readonly at: WireInstant;
  readonly recordedAt: WireInstant;
  readonly by: Named;
  readonly device: string;
  /** Of this same subject: the entry that it corrects, or that corrects it. */
  readonly corrects?: number;
  readonly correctedBy?: number;
  /** Free texts by name; null where the text was withdrawn. */
  readonly texts?: Readonly<Record<string, string | null>>;
  /** Set for an entry of another piece than the one of the trail: a layer that names this shell. */
  readonly ofLayer?: Named;
  readonly tagNumber?: TagNumber;
};

/** What is true of a piece by the entries that a trail shows. */
export interface TrailPiece {
  readonly id: PieceId;
  readonly version: number;
  readonly kind: KindBrief;
  readonly label: MakersLabel;
  readonly labelReading: LabelReading;
  readonly tags: readonly TagView[];
  readonly holder: Named;
  readonly heldSince: WireInstant;
  readonly assignment?: Assignment;
  readonly soiled: boolean;
  readonly washes: number;
  readonly registeredAt: WireInstant;
  readonly registeredWith: Named;
  readonly retiredAt?: WireInstant;
  readonly holds: readonly HoldView[];
  readonly fittedIn?: { readonly shell: Named; readonly since: WireInstant };
}

/** Whether the entries shown are as they were written: their hashes and those of their acts were computed anew. */
export interface TrailChecked {
  readonly entries: number;
  readonly at: WireInstant;
  /** What is not as it was hashed: an entry of a subject, or the act at a position. Empty when nothing was changed. */
  readonly changed: readonly {
    readonly code: string;
    readonly subject?: Uuid;
    readonly version?: number;
    readonly position?: number;
  }[];
}

export interface TrailView {
  readonly piece: TrailPiece;
  readonly knownAt?: KnownAt;
  readonly checked: TrailChecked;
  readonly stays: readonly StayView[];
  readonly fittings: readonly FittingSpan[];
  /** In the order in which they were recorded, oldest first. */
  readonly entries: readonly TrailEntry[];
  readonly names: Names;
}

/** A piece in a list. */
export interface PieceListed {
  readonly id: PieceId;
  readonly kind: KindBrief;
  readonly number?: TagNumber;
  readonly maker?: string;
  readonly modelName?: string;
  readonly size?: string;
  readonly serial?: string;
  readonly labelReading: LabelReading;
  readonly holder: Named;
  readonly heldSince: WireInstant;
  readonly assignment?: { readonly member: Named; readonly set: string };
  readonly soiled: boolean;
  readonly isHeld: boolean;
  readonly retiredAt?: WireInstant;
  readonly seenAt?: WireInstant;
}

/** A piece with the time that it was with the holder whose page it is on. */
export interface PieceWith extends PieceListed {
  readonly from: WireInstant;
  readonly to?: WireInstant;
  readonly evidence: Evidence;
  /** Of a page on a day: when its coming, or its going, was recorded, where that was after the day. */
  readonly recordedLater?: { readonly coming?: WireInstant; readonly going?: WireInstant };
}

export interface HolderPage {
  /** The day that the page is of, in the department's time zone; absent for now. */
  readonly on?: LocalDate;
  readonly timeZone: string;
  readonly knownAt?: KnownAt;
  readonly pieces: readonly PieceWith[];
  /** The last id shown, where there are more. */
  readonly next?: PieceId;
}

export interface PlacePage extends HolderPage {
  readonly place: PlaceBrief;
  /** Places within this one, with how many pieces each holds now. */
  readonly inside: readonly { readonly place: Named; readonly pieces: number }[];
}

/** Pieces assigned to a member's use under one name, each garment with whether it is complete and ready. */
export interface SetShown {
  readonly set: string;
  readonly pieces: readonly PieceListed[];
  /** One a shell or single piece of the set; fitted layers are told with their shell. */
  readonly garments: readonly {
    readonly piece: PieceId;
    readonly layers: readonly PieceId[];
    readonly missing: readonly string[];
    readonly ready: ReadyToIssue<HoldView>;
  }[];
  /** Kinds of a whole outfit that the set has no piece of. */
  readonly outfitLacks: readonly string[];
}

export interface ViewingShown {
  readonly at: WireInstant;
  /** The event on whose list the member was looked at; absent for a look at the member's own page. */
  readonly event?: Named;
  readonly by: Named & { readonly id: AccountId };
}

export interface MemberPage extends HolderPage {
  readonly member: MemberBrief;
  readonly sets: readonly SetShown[];
  /** Holds that stand on pieces that the member has or that are assigned. */
  readonly holds: readonly { readonly piece: Named; readonly hold: HoldView }[];
  /** Events that the member is listed at; for the member and for those who are shown names there. */
  readonly events: readonly ListedAtEvent[];
  /** Who looked at this page, newest first, the last 50. */
  readonly viewings: readonly ViewingShown[];
  readonly names: Names;
}

export interface PiecesFound {
  readonly rows: readonly PieceListed[];
  /** Give it as `after` for the next page; absent on the last one. */
  readonly next?: string;
}
