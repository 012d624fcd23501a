import type { MachineAtCard } from "./cleaning/machine-view.ts";
import type { BagAtCard } from "./custody/bag-views.ts";
import type { AccountId, MemberId, PieceId, PlaceId } from "./ids.ts";
import type { Named, PieceView, TagView, WireInstant } from "./piece-view.ts";
import type { Role } from "./register/account.ts";
import type { PlaceFacts } from "./register/place.ts";
import type { ActionCard } from "./register/policy.ts";
import type { Repair } from "./tags/repair.ts";
import type { ForeignFormat } from "./tags/scanned-text.ts";
import type { TagNumber } from "./tags/tag-number.ts";
import type { LocalDate } from "./time.ts";

/** How a text came in. Typing never proves that a tag is where it should be. */
export type ScanVia = "wedge" | "camera" | "typed";

export interface PlaceBrief extends Omit<PlaceFacts, "within"> {
  readonly id: PlaceId;
  readonly within?: Named;
  readonly closed: boolean;
  readonly number?: TagNumber;
}

export interface MemberBrief {
  readonly id: MemberId;
  /** The department's own number of the member; `name` is absent where it was removed. */
  readonly number: string;
  readonly name?: string;
  readonly station?: Named;
  readonly shift?: string;
  readonly leftOn?: LocalDate;
}

export interface AccountBrief {
  readonly id: AccountId;
  readonly name: string;
  readonly role: Role;
  /** The member behind the account. */
  readonly member?: MemberId;
  readonly closed: boolean;
}

/** A number that was perhaps meant, with the piece that it opens: never taken without a person's word. */
export interface ScanSuggestion {
  readonly number: TagNumber;
  readonly change: Repair["change"];
  readonly piece?: { readonly id: PieceId; readonly title: string; readonly where: Named };
  /** What the number names when it is no piece: a card, or a tag that is on nothing. */
  readonly names?: "tag" | "place" | "member" | "badge" | "action";
}

/**
 * What one scan is answered with, by what the text names. A superseded, lost or destroyed tag still opens its piece,
 * and `tag.state` says so; a void tag, and one that was never fixed to a piece, is an unattached tag.
 */
export type ScanAnswer =
  | { readonly kind: "piece"; readonly text: string; readonly piece: PieceView; readonly tag: TagView }
  | {
      readonly kind: "foreign";
      readonly text: string;
      readonly format: ForeignFormat;
      readonly piece?: PieceView;
    }
  | {
      readonly kind: "place";
      readonly text: string;
      readonly place: PlaceBrief;
      readonly machine?: MachineAtCard;
      /** Of a bag: what is on record in it. */
      readonly bag?: BagAtCard;
    }
  | { readonly kind: "member"; readonly text: string; readonly member: MemberBrief }
  | { readonly kind: "badge"; readonly text: string; readonly account: AccountBrief }
  | { readonly kind: "action"; readonly text: string; readonly action: ActionCard }
  | {
      readonly kind: "unattached-tag";
      readonly text: string;
      readonly number: TagNumber;
      readonly state: "reserved" | "printed" | "void";
      readonly since?: WireInstant;
      /** Why it is void. */
      readonly reason?: string;
      readonly meantFor?: { readonly id: PieceId; readonly title: string; readonly where: Named };
    }
  /** The check symbols hold and the register does not know it: another department's, or a leftover of a restore. */
  | {
      readonly kind: "unknown-number";
      readonly text: string;
      readonly number: TagNumber;
      readonly host?: string;
    }
  | {
      readonly kind: "misread";
      readonly text: string;
      readonly symbols: string;
      readonly suggestions: readonly ScanSuggestion[];
    }
  | { readonly kind: "nothing"; readonly text: string }
  /** The number is on record, and the person who scanned may not see it. */
  | { readonly kind: "not-yours"; readonly text: string };
