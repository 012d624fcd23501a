import type { AccountId } from "../domain/ids.ts";
import type { SignInName } from "../domain/people/secrets.ts";
import { lockAfterMs } from "../domain/people/tries.ts";
import type { Db, Tx } from "./db.ts";

/** A passphrase or PIN as it is kept: argon2id with the parameters that it was made with. Salt and digest in base64. */
export interface KeptSecret {
  readonly algorithm: "argon2id";
  readonly memoryKiB: number;
  readonly passes: number;
  readonly lanes: number;
  readonly salt: string;
  readonly digest: string;
}

/** What somebody may be tried against, or until when nothing is tried. */
export type Tryable =
  | { readonly kept: KeptSecret; readonly account: AccountId }
  | { readonly lockedUntilMs: number };

/** Finds the open account of a sign-in name. Undefined when there is none, or it is closed. */
export async function accountOfSignInName(db: Db, name: SignInName): Promise<AccountId | undefined> {
  const row = await db
    .selectFrom("credential")
    .innerJoin("account", "account.id", "credential.account")
    .select("account.id")
    .where("credential.sign_in_name", "=", name)
    .where("account.closed", "=", false)
    .executeTakeFirst();
  return row?.id as AccountId | undefined;
}

/**
 * Counts a try of the passphrase before it is judged, so that many at once cannot outrun the limit, and gives what it
 * is judged against. Undefined when the account has no passphrase.
 */
export async function beginPassphraseTry(
  db: Db,
  account: AccountId,
  nowMs: number,
): Promise<Tryable | undefined> {
  return db.transaction().execute(async (tx) => {
    const row = await lockCredential(tx, account);
    if (!row?.passphrase) return undefined;
    const locked = lockOf(row.locked_until, nowMs);
    if (locked) return locked;
    const failed = row.failed_tries + 1;
    await tx
      .updateTable("credential")
      .set({ failed_tries: failed, locked_until: lockCell(failed, nowMs) })
      .where("account", "=", account)
      .execute();
    return { account, kept: row.passphrase as unknown as KeptSecret };
  });
}

/** Forgets the counted tries of a passphrase after a right one. */
export async function endPassphraseTries(db: Db, account: AccountId): Promise<void> {
  await db
    .updateTable("credential")
    .set({ failed_tries: 0, locked_until: null })
    .where("account", "=", account)
    .execute();
}

/** Counts a try of the PIN at one bench before it is judged. Undefined when the account has no PIN. */
export async function beginPinTry(
  db: Db,
  account: AccountId,
  device: string,
  nowMs: number,
): Promise<Tryable | undefined> {
  return db.transaction().execute(async (tx) => {
    const row = await lockCredential(tx, account);
    if (!row?.pin) return undefined;
    const tries = await tx
      .selectFrom("pin_tries")
      .selectAll()
      .where("account", "=", account)
      .where("device", "=", device)
      .executeTakeFirst();
    const locked = lockOf(tries?.locked_until ?? null, nowMs);
    if (locked) return locked;
    const failed = (tries?.failed_tries ?? 0) + 1;
    const cells = { failed_tries: failed, locked_until: lockCell(failed, nowMs) };
    await tx
      .insertInto("pin_tries")
      .values({ account, device, ...cells })
      .onConflict((conflict) => conflict.columns(["account", "device"]).doUpdateSet(cells))
      .execute();
    return { account, kept: row.pin as unknown as KeptSecret };
  });
}

/** Forgets the counted tries of a PIN: at one bench after a right one, everywhere when the PIN is set anew. */
export async function endPinTries(db: Db, account: AccountId, device?: string): Promise<void> {
  let remove = db.deleteFrom("pin_tries").where("account", "=", account);
  if (device !== undefined) remove = remove.where("device", "=", device);
  await remove.execute();
}

async function lockCredential(tx: Tx, account: AccountId) {
  return tx
    .selectFrom("credential")
    .selectAll()
    .where("account", "=", account)
    .forUpdate()
    .executeTakeFirst();
}

function lockOf(lockedUntil: Date | null, nowMs: number): { lockedUntilMs: number } | undefined {
  const until = lockedUntil?.getTime() ?? 0;
  return until > nowMs ? { lockedUntilMs: until } : undefined;
}

function lockCell(failed: number, nowMs: number): Date | null {
  const pause = lockAfterMs(failed);
  return pause === 0 ? null : new Date(nowMs + pause);
}
