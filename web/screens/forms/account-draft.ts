/** An account as it is typed: who may come in, and as what. */

import { parsePassphrase, parsePin } from "../../../server/domain/people/secrets.ts";
import type { Role } from "../../../server/domain/register/account.ts";
import { FORM_WORDS } from "../../look/words-forms.ts";
import { isOneLine } from "./field-rules.ts";
import type { Problems } from "./register-draft.ts";
import type { CommandOf } from "./use-acts.ts";

export interface BeingDraft {
  readonly role: Role;
  readonly member: string;
  readonly station: string;
}
export interface AccountDraft extends BeingDraft {
  readonly name: string;
}
export const EMPTY_ACCOUNT: AccountDraft = { name: "", role: "technician", member: "", station: "" };
const words = FORM_WORDS;
/** Longest name. Source: schema of openAccount. */
const NAME_MAX = 200;

/** Finds what a role lacks: a member's account shows a member's gear, a company officer's the gear of a station. */
export function beingProblems({ role, member, station }: BeingDraft): Problems<AccountDraft> {
  const problems: Partial<Record<keyof AccountDraft, string>> = {};
  if (role === "member" && member === "") problems.member = words.memberNeeded;
  if (role === "company officer" && station === "") problems.station = words.stationNeeded;
  return problems;
}

export function accountProblems(draft: AccountDraft): Problems<AccountDraft> {
  const problems: Partial<Record<keyof AccountDraft, string>> = { ...beingProblems(draft) };
  if (draft.name.trim() === "" && draft.member === "") problems.name = words.accountNameNeeded;
  if (!isOneLine(draft.name, NAME_MAX)) problems.name = words.oneLine(NAME_MAX);
  return problems;
}

/** Makes the act that gives a role; what the role has no use for is left out. */
export function beingOf({ role, member, station }: BeingDraft, account: string): CommandOf<"giveRole"> {
  return {
    ...{ account, role },
    ...(member ? { member } : {}),
    ...(station && role === "company officer" ? { station } : {}),
  };
}

/** Makes the act that opens an account. A member has a name already; one that is typed as well is the account's own. */
export function accountOf(draft: AccountDraft, account: string): CommandOf<"openAccount"> {
  const name = draft.name.trim();
  return { ...beingOf(draft, account), ...(name ? { name } : {}) };
}

export interface SecretsDraft {
  readonly passphrase: string;
  readonly newPassphrase: string;
  readonly again: string;
  readonly newPin: string;
}
export const EMPTY_SECRETS: SecretsDraft = { passphrase: "", newPassphrase: "", again: "", newPin: "" };

/** Finds what is wrong with a change of one's own passphrase or PIN; one of the two must be new. */
export function secretsProblems(draft: SecretsDraft, unequal: string): Problems<SecretsDraft> {
  const problems: Partial<Record<keyof SecretsDraft, string>> = {};
  const { passphrase, newPassphrase, again, newPin } = draft;
  if (passphrase === "") problems.passphrase = words.passphraseNowNeeded;
  if (newPassphrase === "" && newPin === "") problems.newPassphrase = words.chooseEither;
  if (newPassphrase !== "" && parsePassphrase(newPassphrase) === undefined) {
    problems.newPassphrase = words.passphraseShort;
  }
  if (newPassphrase !== again) problems.again = unequal;
  if (newPin !== "" && parsePin(newPin) === undefined) problems.newPin = words.pinWrong;
  return problems;
}

/** Makes what is sent of a draft without problems: what stays as it is is left out. */
export function secretsOf({ passphrase, newPassphrase, newPin }: SecretsDraft) {
  return {
    passphrase,
    ...(newPassphrase ? { newPassphrase } : {}),
    ...(newPin ? { newPin } : {}),
  };
}
