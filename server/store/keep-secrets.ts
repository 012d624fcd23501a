import type { AccountId } from "../domain/ids.ts";
import type { SignInName } from "../domain/people/secrets.ts";
import type { KeptSecret } from "./credentials.ts";
import type { Db } from "./db.ts";

/** Tells whether a sign-in name belongs to another account, open or closed. */
export async function isSignInNameTaken(db: Db, name: SignInName, by: AccountId): Promise<boolean> {
  const row = await db
    .selectFrom("credential")
    .select("account")
    .where("sign_in_name", "=", name)
    .where("account", "!=", by)
    .executeTakeFirst();
  return row !== undefined;
}

/** Keeps what an account signs in with; what is not given stays as it is. A new passphrase forgets wrong tries. */
export async function keepSecrets(
  db: Db,
  account: AccountId,
  secrets: {
    readonly signInName?: SignInName | undefined;
    readonly passphrase?: KeptSecret | undefined;
    readonly pin?: KeptSecret | undefined;
  },
): Promise<void> {
  const { signInName, passphrase, pin } = secrets;
  const cells = {
    ...(signInName === undefined ? {} : { sign_in_name: signInName }),
    ...(passphrase === undefined
      ? {}
      : { passphrase: JSON.stringify(passphrase), failed_tries: 0, locked_until: null }),
    ...(pin === undefined ? {} : { pin: JSON.stringify(pin) }),
  };
  await db
    .insertInto("credential")
    .values({ account, ...cells })
    .onConflict((conflict) => conflict.column("account").doUpdateSet({ account, ...cells }))
    .execute();
}

/** Keeps or corrects the name of a person: a member, or an account that has no member behind it. */
export async function keepPersonName(db: Db, id: string, name: string): Promise<void> {
  await db
    .insertInto("person")
    .values({ id, name })
    .onConflict((conflict) => conflict.column("id").doUpdateSet({ name }))
    .execute();
}

/** Takes a person's name away; the ledger, which knows ids alone, is not touched. */
export async function removePersonName(db: Db, id: string): Promise<void> {
  await db.deleteFrom("person").where("id", "=", id).execute();
}
