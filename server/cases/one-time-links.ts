import type { AccountId, ActId, Uuid } from "../domain/ids.ts";
import type { Passphrase, Pin, SignInName } from "../domain/people/secrets.ts";
import type { Role } from "../domain/register/account.ts";
import type { Instant } from "../domain/time.ts";
import { uuidV7 } from "../ledger/uuid-v7.ts";
import { endPinTries } from "../store/credentials.ts";
import type { Db } from "../store/db.ts";
import { isSignInNameTaken, keepPersonName, keepSecrets } from "../store/keep-secrets.ts";
import { listAccounts } from "../store/list-accounts.ts";
import { findLink, insertLink, type LinkPurpose, spendLink } from "../store/one-time-links.ts";
import { endSessionsOf } from "../store/sessions.ts";
import { hashSecret } from "./hash-secret.ts";
import { type Act, runAct } from "./run-act.ts";
import { drawSecret, hashOfSecret } from "./sessions.ts";
import { SYSTEM_ACCOUNT, SYSTEM_ROLE } from "./system-account.ts";

export type { LinkPurpose } from "../store/one-time-links.ts";

/** How long a one-time link opens. Source: design section 5. */
const LINK_LASTS_MS = 24 * 3_600_000;

/** A new link's secret. It travels after `#`, so that no server, proxy or log on the way sees it. */
export interface NewLink {
  readonly token: string;
  readonly expiresAtMs: number;
}

/**
 * Makes a one-time link: for an account to join or choose a new passphrase, or, without one, for a first manager.
 * Undefined when the account is closed or never was.
 */
export async function makeLink(
  db: Db,
  link: { readonly purpose: LinkPurpose; readonly account?: AccountId; readonly madeBy: AccountId },
  nowMs: number,
): Promise<NewLink | undefined> {
  if (link.account) {
    const [account] = await listAccounts(db, link.account);
    if (!account || account.closed || account.id === SYSTEM_ACCOUNT) return undefined;
  }
  const secret = drawSecret();
  const expiresAtMs = nowMs + LINK_LASTS_MS;
  await insertLink(db, { ...link, tokenHash: secret.hash, expiresAtMs });
  return { token: secret.token, expiresAtMs };
}

/** What a link is for, to show before it is used. */
export interface LinkSeen {
  readonly purpose: LinkPurpose;
  readonly expiresAtMs: number;
  readonly name?: string;
  readonly role?: Role;
  readonly signInName?: string;
}

/** Looks at a link without using it. */
export async function lookAtLink(db: Db, token: string, nowMs: number): Promise<LinkSeen | undefined> {
  const link = await findLink(db, hashOfSecret(token), nowMs);
  if (!link) return undefined;
  const { purpose, expiresAtMs } = link;
  const account = link.account && (await listAccounts(db, link.account))[0];
  if (!account) return { purpose, expiresAtMs };
  return {
    ...{ purpose, expiresAtMs, role: account.role },
    ...(account.name === null ? {} : { name: account.name }),
    ...(account.sign_in_name === null ? {} : { signInName: account.sign_in_name }),
  };
}

export type LinkUse =
  | { readonly account: AccountId }
  | { readonly refused: "spent" }
  | { readonly refused: "sign-in name taken" };

interface Chosen {
  readonly signInName?: SignInName;
  readonly passphrase: Passphrase;
  readonly pin?: Pin;
}

/**
 * Uses a link of somebody whose account is open: joins with a name of their own and a passphrase, or takes a new
 * passphrase. It is used up in the same transaction, and whoever was signed in as this account is no longer.
 */
export async function useAccountLink(db: Db, token: string, chosen: Chosen, nowMs: number): Promise<LinkUse> {
  const secrets = await hashChosen(chosen);
  return db
    .transaction()
    .execute(async (tx) => {
      const link = await spendLink(tx, hashOfSecret(token), nowMs);
      const account = link?.account && (await listAccounts(tx, link.account))[0];
      if (!account || account.closed) return rollBack("spent");
      if (!chosen.signInName && !account.sign_in_name) return rollBack("spent");
      if (chosen.signInName && (await isSignInNameTaken(tx, chosen.signInName, account.id))) {
        return rollBack("sign-in name taken");
      }
      await keepSecrets(tx, account.id, { ...secrets, signInName: chosen.signInName });
      await endSessionsOf(tx, account.id, nowMs);
      if (chosen.pin) await endPinTries(tx, account.id);
      return { account: account.id };
    })
    .catch(unwrap);
}

/** Uses the link of the first program manager: opens the account, in the ledger by the system account. */
export async function useFirstManagerLink(
  db: Db,
  token: string,
  chosen: Chosen & { readonly signInName: SignInName; readonly name: string },
  nowMs: number,
  appBuild: string,
): Promise<LinkUse> {
  const secrets = await hashChosen(chosen);
  const account = uuidV7(nowMs) as AccountId;
  const act: Act<{ readonly account: AccountId }> = {
    name: "openAccount",
    rules: "exclusive",
    async decide({ tx }) {
      const link = await spendLink(tx, hashOfSecret(token), nowMs);
      if (link?.purpose !== "first manager") return rollBack("spent");
      if (await isSignInNameTaken(tx, chosen.signInName, account)) return rollBack("sign-in name taken");
      await keepPersonName(tx, account, chosen.name);
      await keepSecrets(tx, account, { ...secrets, signInName: chosen.signInName });
      const entry = { kind: "AccountOpened" as const, account: { role: "program manager" as const } };
      return { entries: [{ subjectKind: "account", subject: account as Uuid, entry }] };
    },
  };
  const now = nowMs as Instant;
  const envelope = {
    ...{
      id: uuidV7(nowMs) as ActId,
      by: SYSTEM_ACCOUNT,
      role: SYSTEM_ROLE,
      device: "server",
      deviceSeq: 0,
      appBuild,
    },
    ...{ at: now, atOffsetMin: 0, sentAt: now },
  };
  try {
    const outcome = await runAct(db, act, { account }, envelope, nowMs);
    if ("refusals" in outcome)
      throw new Error(`The first account was refused: ${outcome.refusals[0]?.code}.`);
    return { account };
  } catch (failure) {
    return unwrap(failure);
  }
}

async function hashChosen({ passphrase, pin }: Chosen) {
  return { passphrase: await hashSecret(passphrase), pin: pin && (await hashSecret(pin)) };
}

/** Leaves the transaction, so that a link is not used up by what was refused. */
class LinkRefused extends Error {
  readonly use: Extract<LinkUse, { refused: string }>;
  constructor(use: Extract<LinkUse, { refused: string }>) {
    super(use.refused);
    this.use = use;
  }
}

function rollBack(refused: "spent" | "sign-in name taken"): never {
  throw new LinkRefused({ refused });
}

function unwrap(failure: unknown): LinkUse {
  if (failure instanceof LinkRefused) return failure.use;
  throw failure;
}
