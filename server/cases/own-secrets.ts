import type { AccountId } from "../domain/ids.ts";
import type { Passphrase, Pin } from "../domain/people/secrets.ts";
import { endPinTries } from "../store/credentials.ts";
import type { Db } from "../store/db.ts";
import { keepSecrets } from "../store/keep-secrets.ts";
import { endSessionsOf } from "../store/sessions.ts";
import { hashSecret } from "./hash-secret.ts";
import { type NotSignedIn, provesPassphrase } from "./sign-in.ts";

/** Changes one's own passphrase and PIN, proved by the passphrase that holds now. A new passphrase ends all sessions. */
export async function changeOwnSecrets(
  db: Db,
  account: AccountId,
  given: {
    readonly passphrase: string;
    readonly newPassphrase?: Passphrase;
    readonly newPin?: Pin;
  },
  nowMs: number,
): Promise<true | NotSignedIn> {
  const proved = await provesPassphrase(db, account, given.passphrase, nowMs);
  if (proved !== true) return proved;
  await keepSecrets(db, account, {
    passphrase: given.newPassphrase && (await hashSecret(given.newPassphrase)),
    pin: given.newPin && (await hashSecret(given.newPin)),
  });
  if (given.newPin) await endPinTries(db, account);
  if (given.newPassphrase) await endSessionsOf(db, account, nowMs);
  return true;
}
