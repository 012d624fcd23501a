import type { Role } from "../../../server/domain/register/account.ts";
import { FORM_WORDS } from "../../look/words-forms.ts";

/** An account as the list of accounts has it. */
export interface AccountSeen {
  readonly id: string;
  readonly name?: string | undefined;
  readonly role: Role;
  readonly member?: string | undefined;
  readonly station?: string | undefined;
  readonly badge?: string | undefined;
  readonly signInName?: string | undefined;
  readonly hasPassphrase: boolean;
  readonly hasPin: boolean;
  readonly closed: boolean;
}

/** Names the person behind an account; a name can have been removed. */
export function nameOfAccount({ name, signInName }: AccountSeen): string {
  return name ?? signInName ?? FORM_WORDS.nameRemoved;
}

/** Writes a card's number as people read it, in groups of four. */
export function sayNumber(number: string): string {
  return number.replace(/(.{4})(?=.)/g, "$1 ");
}
