import type { MemberId, PlaceId } from "../ids.ts";
import type { Versioned } from "../pieces/piece-entries.ts";
import type { TagNumber } from "../tags/tag-number.ts";
import type { LocalDate } from "../time.ts";

/** A member is known to the ledger by id and number; the name lives apart, where it can be corrected or removed. */
export interface MemberFacts {
  readonly number: string;
  readonly station?: PlaceId;
  readonly shift?: string;
}
export type MemberEntry =
  | { readonly kind: "MemberListed"; readonly member: MemberFacts }
  | { readonly kind: "MemberCarded"; readonly number: TagNumber }
  | { readonly kind: "MemberLeft"; readonly on: LocalDate };

export interface MemberState extends MemberFacts {
  readonly id: MemberId;
  readonly version: number;
  readonly card?: TagNumber;
  readonly leftOn?: LocalDate;
}

/** Folds a member's entries; the last listing holds and ends an earlier leaving. Undefined before the first. */
export function foldMember(
  id: MemberId,
  entries: readonly Versioned<MemberEntry>[],
): MemberState | undefined {
  let facts: MemberFacts | undefined;
  let card: TagNumber | undefined;
  let leftOn: LocalDate | undefined;
  for (const { entry } of entries) {
    switch (entry.kind) {
      case "MemberListed":
        facts = entry.member;
        leftOn = undefined;
        break;
      case "MemberCarded":
        card = entry.number;
        break;
      case "MemberLeft":
        leftOn = entry.on;
        break;
      default:
        entry satisfies never;
    }
  }
  const version = entries.at(-1)?.version ?? 0;
  return facts && { id, version, ...facts, ...(card ? { card } : {}), ...(leftOn ? { leftOn } : {}) };
}
