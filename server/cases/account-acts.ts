import type { AccountId, MemberId, PlaceId } from "../domain/ids.ts";
import type { Refusal } from "../domain/refusal.ts";
import { type AccountFacts, type AccountState, foldAccount, type Role } from "../domain/register/account.ts";
import type { NewEntry } from "../domain/subjects.ts";
import { type ActScope, entriesOf, takeSubjects } from "../store/act-scope.ts";
import { endPinTries } from "../store/credentials.ts";
import { keepPersonName } from "../store/keep-secrets.ts";
import { otherManagers } from "../store/list-accounts.ts";
import { endLinks } from "../store/one-time-links.ts";
import { endSessionsOf } from "../store/sessions.ts";
import { drawNumbers } from "./draw-numbers.ts";
import type { Act } from "./run-act.ts";
import { SYSTEM_ACCOUNT } from "./system-account.ts";

interface AccountBeing {
  readonly account: AccountId;
  readonly role: Role;
  readonly member?: MemberId;
  readonly station?: PlaceId;
}

/** Opens an account, or a closed one again. The name is kept apart from the ledger; a member has one already. */
export interface OpenAccount extends AccountBeing {
  readonly name?: string;
}
export const openAccountAct: Act<OpenAccount> = {
  name: "openAccount",
  rules: "exclusive",
  async decide(scope, { name, ...being }) {
    const state = await takeAccount(scope, being.account);
    if (state && !state.closed) {
      return { refusals: [{ code: "name-taken", what: "account", name: name ?? being.account }] };
    }
    const unknown = await unknownAround(scope, being);
    if (unknown.length > 0) return { refusals: unknown };
    if (name !== undefined) await keepPersonName(scope.tx, being.account, name);
    return { entries: [entryOn(being.account, { kind: "AccountOpened", account: factsOf(being) })] };
  },
};

export const giveRoleAct: Act<AccountBeing> = {
  name: "giveRole",
  rules: "exclusive",
  async decide(scope, being) {
    const state = await takeAccount(scope, being.account);
    const refusals: Refusal[] = [
      ...refuseUnlessOpen(state, being.account),
      ...(await unknownAround(scope, being)),
    ];
    if (being.role !== "program manager") refusals.push(...(await refuseLastManager(scope, state)));
    if (refusals.length > 0) return { refusals };
    return { entries: [entryOn(being.account, { kind: "RoleGiven", account: factsOf(being) })] };
  },
};

/** Gives an account a badge with a number of its own. A new badge takes the place of the old one, which then opens nothing. */
export interface GiveBadge {
  readonly account: AccountId;
}
export const giveBadgeAct: Act<GiveBadge> = {
  name: "giveBadge",
  rules: "exclusive",
  async decide(scope, { account }) {
    const refusals = refuseUnlessOpen(await takeAccount(scope, account), account);
    if (refusals.length > 0) return { refusals };
    const [number] = await drawNumbers(scope.tx, 1);
    return number ? { entries: [entryOn(account, { kind: "BadgeGiven", number })] } : { entries: [] };
  },
};

/** Closes an account: its sessions, links and PIN tries end with it, at once and on every server. */
export interface CloseAccount {
  readonly account: AccountId;
}
export const closeAccountAct: Act<CloseAccount> = {
  name: "closeAccount",
  rules: "exclusive",
  async decide(scope, { account }, { at }) {
    const state = await takeAccount(scope, account);
    const refusals = [...refuseUnlessOpen(state, account), ...(await refuseLastManager(scope, state))];
    if (refusals.length > 0) return { refusals };
    await endSessionsOf(scope.tx, account, at);
    await endLinks(scope.tx, "join", account);
    await endLinks(scope.tx, "new passphrase", account);
    await endPinTries(scope.tx, account);
    return { entries: [entryOn(account, { kind: "AccountClosed" })] };
  },
};

async function takeAccount(scope: ActScope, account: AccountId): Promise<AccountState | undefined> {
  await takeSubjects(scope, "account", [account]);
  return foldAccount(account, entriesOf(scope, "account", account));
}

function factsOf({ role, member, station }: AccountBeing): AccountFacts {
  return { role, ...(member ? { member } : {}), ...(station ? { station } : {}) };
}

function entryOn(
  subject: AccountId,
  entry: Extract<NewEntry, { subjectKind: "account" }>["entry"],
): NewEntry {
  return { subjectKind: "account", subject, entry };
}

function refuseUnlessOpen(state: AccountState | undefined, account: AccountId): Refusal[] {
  if (!state || account === SYSTEM_ACCOUNT) {
    return [{ code: "unknown-subject", subject: account, what: "account" }];
  }
  return state.closed ? [{ code: "closed", subject: account, what: "account" }] : [];
}

/** Somebody must be left who can let others in. */
async function refuseLastManager(scope: ActScope, state: AccountState | undefined): Promise<Refusal[]> {
  if (state?.role !== "program manager" || state.closed) return [];
  const others = await otherManagers(scope.tx, state.id);
  return others.length > 0 ? [] : [{ code: "last-manager", subject: state.id }];
}

async function unknownAround(scope: ActScope, { member, station }: AccountBeing): Promise<Refusal[]> {
  const refusals: Refusal[] = [];
  if (member) {
    await takeSubjects(scope, "member", [member]);
    if (entriesOf(scope, "member", member).length === 0) {
      refusals.push({ code: "unknown-subject", subject: member, what: "member" });
    }
  }
  if (station) {
    await takeSubjects(scope, "place", [station]);
    if (entriesOf(scope, "place", station).length === 0) {
      refusals.push({ code: "unknown-subject", subject: station, what: "place" });
    }
  }
  return refusals;
}
