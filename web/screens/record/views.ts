/** What the record screens show, as the server answers it. */
import type { Evidence } from "../../../server/domain/evidence.ts";
import type {
  EntryBody,
  Named,
  Names,
  PieceBrief,
  PieceView,
  WireInstant,
} from "../../../server/domain/piece-view.ts";
import type { PlaceSort } from "../../../server/domain/register/place.ts";
import type { MemberBrief, PlaceBrief } from "../../../server/domain/scan-answer.ts";

/** The time with one holder, half-open; a custody gap has whereabouts unknown as its holder. */
export interface StayView {
  readonly holder: Named;
  readonly sort?: PlaceSort;
  readonly from: WireInstant;
  readonly to?: WireInstant;
  readonly evidence: Evidence;
  readonly fromVersion: number;
  readonly toVersion?: number;
}

export interface TrailEntryView {
  readonly body: EntryBody;
  readonly at: WireInstant;
  readonly recordedAt: WireInstant;
  readonly by: Named;
  readonly position: number;
  readonly correctedBy?: number;
  readonly texts?: Readonly<Record<string, string>>;
}

export interface TrailView {
  readonly piece: PieceView;
  readonly position: number;
  readonly knownAt?: { readonly position: number; readonly recordedAt: WireInstant };
  readonly stays: readonly StayView[];
  readonly entries: readonly TrailEntryView[];
  readonly names: Names;
}

/** A piece with a holder for a time, as a place's or a member's page lists it. */
export interface HeldPiece {
  readonly piece: PieceBrief;
  readonly since: WireInstant;
  readonly to?: WireInstant;
  readonly isLater?: boolean;
  readonly belongsTo?: { readonly member: Named; readonly set: string };
}

export interface PlacePage {
  readonly place: PlaceBrief;
  readonly on?: string;
  readonly pieces: readonly HeldPiece[];
}

export interface SetView {
  readonly name: string;
  readonly count: number;
  readonly elsewhere: number;
  readonly lacks: readonly string[];
}

export interface MemberPage {
  readonly member: MemberBrief;
  readonly on?: string;
  readonly pieces: readonly HeldPiece[];
  readonly sets: readonly SetView[];
  readonly looks?: readonly { readonly at: WireInstant; readonly by: Named }[];
}

export interface FoundPiece {
  readonly piece: PieceBrief;
  readonly belongsTo?: { readonly member: Named; readonly set: string };
  readonly lastSeen?: WireInstant;
}

export interface FoundPieces {
  readonly rows: readonly FoundPiece[];
  readonly next?: string;
}
