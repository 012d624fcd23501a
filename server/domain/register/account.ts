import type { AccountId, MemberId, PlaceId } from "../ids.ts";
import type { Versioned } from "../pieces/piece-entries.ts";
import type { TagNumber } from "../tags/tag-number.ts";

export const ROLES = [
  "technician",
  "inspector",
  "program manager",
  "company officer",
  "member",
  "reader",
] as const;
export type Role = (typeof ROLES)[number];

/** Who signs in: a role, and the member's number behind it where there is one. The name lives apart. */
export interface AccountFacts {
  readonly role: Role;
  readonly member?: MemberId;
  /** For a company officer: the station whose gear the account sees. */
  readonly station?: PlaceId;
}
export type AccountEntry =
  | { readonly kind: "AccountOpened"; readonly account: AccountFacts }
  | { readonly kind: "RoleGiven"; readonly account: AccountFacts }
  | { readonly kind: "BadgeGiven"; readonly number: TagNumber }
  | { readonly kind: "AccountClosed" };
export interface AccountState extends AccountFacts {
  readonly id: AccountId;
  readonly version: number;
  readonly badge?: TagNumber;
  readonly closed: boolean;
}

/** Folds an account's entries; the last role and badge hold. Undefined before it is opened. */
export function foldAccount(
  id: AccountId,
  entries: readonly Versioned<AccountEntry>[],
): AccountState | undefined {
  let facts: AccountFacts | undefined;
  let badge: TagNumber | undefined;
  let closed = false;
  for (const { entry } of entries) {
    switch (entry.kind) {
      case "AccountOpened":
      case "RoleGiven":
        facts = entry.account;
        closed = false;
        break;
      case "BadgeGiven":
        badge = entry.number;
        break;
      case "AccountClosed":
        closed = true;
        break;
      default:
        entry satisfies never;
    }
  }
  return (
    facts && { id, version: entries.at(-1)?.version ?? 0, ...facts, closed, ...(badge ? { badge } : {}) }
  );
}
