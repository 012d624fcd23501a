import type { AccountId } from "../domain/ids.ts";
import type { Db } from "../store/db.ts";
import { keepPersonName, removePersonName } from "../store/keep-secrets.ts";
import { listAccounts } from "../store/list-accounts.ts";
import { SYSTEM_ACCOUNT } from "./system-account.ts";

/**
 * Corrects the name of the person behind an account, or takes it away. No act: names stand apart from the ledger, so
 * that they can be put right or removed. A member's name is the member's, whatever accounts there are.
 */
export async function renamePerson(db: Db, account: AccountId, name: string | null): Promise<boolean> {
  const [row] = await listAccounts(db, account);
  if (!row || account === SYSTEM_ACCOUNT) return false;
  await db.transaction().execute(async (tx) => {
    if (row.member) await removePersonName(tx, account);
    const person = row.member ?? account;
    await (name === null ? removePersonName(tx, person) : keepPersonName(tx, person, name));
  });
  return true;
}
