import type { Db } from "../store/db.ts";
import { type AccountRow, listAccounts } from "../store/list-accounts.ts";
import { SYSTEM_ACCOUNT } from "./system-account.ts";

/** An account as the program manager sees it; what is not known is left out. */
export interface AccountSeen {
  readonly id: string;
  readonly name?: string;
  readonly role: AccountRow["role"];
  readonly member?: string;
  readonly station?: string;
  readonly badge?: string;
  readonly signInName?: string;
  readonly hasPassphrase: boolean;
  readonly hasPin: boolean;
  readonly closed: boolean;
  readonly version: number;
}

/** Reads all accounts of people. The system's own is left out: nobody signs in with it. */
export async function readAccounts(db: Db): Promise<AccountSeen[]> {
  const rows = await listAccounts(db);
  return rows.filter(({ id }) => id !== SYSTEM_ACCOUNT).map(seen);
}

function seen(row: AccountRow): AccountSeen {
  return {
    ...{ id: row.id, role: row.role, closed: row.closed, version: row.version },
    ...{ hasPassphrase: row.has_passphrase, hasPin: row.has_pin },
    ...(row.name === null ? {} : { name: row.name }),
    ...(row.member === null ? {} : { member: row.member }),
    ...(row.station === null ? {} : { station: row.station }),
    ...(row.badge === null ? {} : { badge: row.badge }),
    ...(row.sign_in_name === null ? {} : { signInName: row.sign_in_name }),
  };
}
