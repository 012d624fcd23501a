import { randomBytes } from "node:crypto";
import type { AccountId } from "../domain/ids.ts";
import { sha256 } from "../ledger/canonical.ts";
import type { Db } from "../store/db.ts";
import {
  endSession,
  findSession,
  insertSession,
  type Session,
  type SessionStrength,
} from "../store/sessions.ts";

export type { Session, SessionStrength } from "../store/sessions.ts";

/** A full session ends after a week at the latest; a bare badge is good for one visit to the drop. Own judgement. */
const LASTS_MS: Readonly<Record<SessionStrength, number>> = { full: 7 * 86_400_000, badge: 10 * 60_000 };

/** A secret that goes to the client, with the hash that is stored in its place. */
export interface OneSecret {
  readonly token: string;
  readonly hash: Buffer;
}

/** Draws 256 random bits as base64url text. Stored as SHA-256: a random secret needs no slow hash. */
export function drawSecret(): OneSecret {
  const token = randomBytes(32).toString("base64url");
  return { token, hash: hashOfSecret(token) };
}

/** Hashes a secret as it is stored. */
export function hashOfSecret(token: string): Buffer {
  return sha256(token);
}

/** Starts a session on a device and gives its token, which is shown once. */
export async function startSession(
  db: Db,
  account: AccountId,
  device: string,
  strength: SessionStrength,
  nowMs: number,
): Promise<{ readonly token: string; readonly lastsMs: number }> {
  const secret = drawSecret();
  const lastsMs = LASTS_MS[strength];
  await insertSession(db, { tokenHash: secret.hash, account, device, strength, nowMs, lastsMs });
  return { token: secret.token, lastsMs };
}

/** Reads who a token signs in, from the database and never from memory. */
export async function readSession(db: Db, token: string, nowMs: number): Promise<Session | undefined> {
  return findSession(db, hashOfSecret(token), nowMs);
}

/** Signs a token out. */
export async function signOut(db: Db, token: string, nowMs: number): Promise<void> {
  await endSession(db, hashOfSecret(token), nowMs);
}
