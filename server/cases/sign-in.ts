import { randomUUID } from "node:crypto";
import type { AccountId } from "../domain/ids.ts";
import { composePassphrase, type Pin, parseSignInName } from "../domain/people/secrets.ts";
import type { TagNumber } from "../domain/tags/tag-number.ts";
import { findBenchDevice, insertBenchDevice } from "../store/bench-devices.ts";
import {
  accountOfSignInName,
  beginPassphraseTry,
  beginPinTry,
  endPassphraseTries,
  endPinTries,
} from "../store/credentials.ts";
import type { Db } from "../store/db.ts";
import { keepSecrets } from "../store/keep-secrets.ts";
import { accountOfBadge } from "../store/list-accounts.ts";
import { hashSecret, isOutdated, isSecret, pretendToTry } from "./hash-secret.ts";
import { drawSecret, hashOfSecret, startSession } from "./sessions.ts";

export interface StartedSession {
  readonly account: AccountId;
  readonly token: string;
  readonly lastsMs: number;
  /** Given when the bench is new: the token by which it is known from now on. */
  readonly benchToken?: string;
}
export type NotSignedIn =
  | { readonly refused: "wrong" | "unknown bench" }
  | { readonly refused: "locked"; readonly untilMs: number };
export type SignInAnswer = { readonly started: StartedSession } | NotSignedIn;

/** Where somebody stands: the bench's own token, where the browser has one. */
interface At {
  readonly benchToken: string | undefined;
  readonly nowMs: number;
}

/**
 * Signs in by name and passphrase. Wrong name, wrong passphrase and closed account get one answer, in about one time.
 * The bench is remembered, so that a badge and a PIN are enough there afterwards.
 */
export async function signIn(
  db: Db,
  given: { readonly signInName: string; readonly passphrase: string },
  at: At,
): Promise<SignInAnswer> {
  const passphrase = composePassphrase(given.passphrase);
  const name = parseSignInName(given.signInName);
  const account = name && (await accountOfSignInName(db, name));
  const tried = account && (await beginPassphraseTry(db, account, at.nowMs));
  if (!account || !tried) {
    await pretendToTry(passphrase);
    return { refused: "wrong" };
  }
  if ("lockedUntilMs" in tried) return { refused: "locked", untilMs: tried.lockedUntilMs };
  if (!(await isSecret(passphrase, tried.kept))) return { refused: "wrong" };
  await endPassphraseTries(db, account);
  if (isOutdated(tried.kept)) await keepSecrets(db, account, { passphrase: await hashSecret(passphrase) });
  return { started: await startAtBench(db, account, at) };
}

/** Starts a full session for somebody who proved who they are, and remembers the bench. */
export async function startAtBench(
  db: Db,
  account: AccountId,
  { benchToken, nowMs }: At,
): Promise<StartedSession> {
  const known = benchToken && (await findBenchDevice(db, hashOfSecret(benchToken)));
  if (known) return { account, ...(await startSession(db, account, known, "full", nowMs)) };
  const [id, secret] = [randomUUID(), drawSecret()];
  await insertBenchDevice(db, { id, tokenHash: secret.hash, enrolledBy: account, nowMs });
  return { account, ...(await startSession(db, account, id, "full", nowMs)), benchToken: secret.token };
}

/**
 * Changes the person at a bench by badge. With the PIN it is a full session; a bare badge is enough for a turn-in only.
 * Works only where somebody signed in with a passphrase before: four digits are no guard against the whole network.
 */
export async function signInByBadge(
  db: Db,
  given: { readonly badge: TagNumber; readonly pin: Pin | undefined },
  { benchToken, nowMs }: At,
): Promise<SignInAnswer> {
  const device = benchToken && (await findBenchDevice(db, hashOfSecret(benchToken)));
  if (!device) return { refused: "unknown bench" };
  const account = await accountOfBadge(db, given.badge);
  if (!account) return { refused: "wrong" };
  if (given.pin === undefined) {
    return { started: { account, ...(await startSession(db, account, device, "badge", nowMs)) } };
  }
  const tried = await beginPinTry(db, account, device, nowMs);
  if (!tried) return { refused: "wrong" };
  if ("lockedUntilMs" in tried) return { refused: "locked", untilMs: tried.lockedUntilMs };
  if (!(await isSecret(given.pin, tried.kept))) return { refused: "wrong" };
  await endPinTries(db, account, device);
  return { started: { account, ...(await startSession(db, account, device, "full", nowMs)) } };
}

/** Tells whether a passphrase is the account's own; each try counts, as at sign-in. */
export async function provesPassphrase(
  db: Db,
  account: AccountId,
  passphrase: string,
  nowMs: number,
): Promise<true | NotSignedIn> {
  const tried = await beginPassphraseTry(db, account, nowMs);
  if (!tried) return { refused: "wrong" };
  if ("lockedUntilMs" in tried) return { refused: "locked", untilMs: tried.lockedUntilMs };
  if (!(await isSecret(composePassphrase(passphrase), tried.kept))) return { refused: "wrong" };
  await endPassphraseTries(db, account);
  return true;
}
