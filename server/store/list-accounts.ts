import { sql } from "kysely";
import type { AccountId, MemberId, PlaceId } from "../domain/ids.ts";
import type { Role } from "../domain/register/account.ts";
import type { TagNumber } from "../domain/tags/tag-number.ts";
import type { Db, Tx } from "./db.ts";

/** An account as the program manager sees it. Secrets are told as there or not. */
export interface AccountRow {
  readonly id: AccountId;
  readonly role: Role;
  readonly name: string | null;
  readonly member: MemberId | null;
  readonly station: PlaceId | null;
  readonly badge: TagNumber | null;
  readonly closed: boolean;
  readonly version: number;
  readonly sign_in_name: string | null;
  readonly has_passphrase: boolean;
  readonly has_pin: boolean;
}

/** Lists all accounts by name, closed ones last. `only` narrows to one. */
export async function listAccounts(db: Db, only?: AccountId): Promise<readonly AccountRow[]> {
  const found = await sql<AccountRow>`
    select a.id, a.role, coalesce(own.name, listed.name) as name, a.member, a.station, a.badge, a.closed, a.version,
      c.sign_in_name, c.passphrase is not null as has_passphrase, c.pin is not null as has_pin
    from account a left join person own on own.id = a.id left join person listed on listed.id = a.member
      left join credential c on c.account = a.id
    where ${only ?? null}::uuid is null or a.id = ${only ?? null}::uuid
    order by a.closed, lower(coalesce(own.name, listed.name)), a.id`.execute(db);
  return found.rows;
}

/** Finds the open account that a badge number names. */
export async function accountOfBadge(db: Db, badge: TagNumber): Promise<AccountId | undefined> {
  const row = await db
    .selectFrom("account")
    .select("id")
    .where("badge", "=", badge)
    .where("closed", "=", false)
    .executeTakeFirst();
  return row?.id as AccountId | undefined;
}

/** Names the open program managers who can sign in, all but one account: who could let others in without it. */
export async function otherManagers(db: Db | Tx, account: AccountId): Promise<readonly AccountId[]> {
  const rows = await db
    .selectFrom("account")
    .innerJoin("credential", "credential.account", "account.id")
    .select("account.id")
    .where("account.role", "=", "program manager")
    .where("account.closed", "=", false)
    .where("account.id", "!=", account)
    .where("credential.passphrase", "is not", null)
    .execute();
  return rows.map(({ id }) => id as AccountId);
}
