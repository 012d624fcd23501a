import { sql } from "kysely";
import type { AccountId } from "../domain/ids.ts";
import type { Db, Tx } from "./db.ts";

export type LinkPurpose = "first manager" | "join" | "new passphrase";

/** A one-time link that still opens something. */
export interface OpenLink {
  readonly purpose: LinkPurpose;
  readonly account?: AccountId;
  readonly expiresAtMs: number;
}

/** Keeps a link by its hash. Older unused links of the same purpose and account end: the newest one opens alone. */
export async function insertLink(
  db: Db,
  link: {
    readonly tokenHash: Buffer;
    readonly purpose: LinkPurpose;
    readonly account?: AccountId;
    readonly madeBy: AccountId;
    readonly expiresAtMs: number;
  },
): Promise<void> {
  await db.transaction().execute(async (tx) => {
    await endLinks(tx, link.purpose, link.account);
    await tx
      .insertInto("one_time_link")
      .values({
        token_hash: link.tokenHash,
        purpose: link.purpose,
        account: link.account ?? null,
        made_by: link.madeBy,
        expires_at: new Date(link.expiresAtMs),
      })
      .execute();
  });
}

/** Takes away the unused links of a purpose and account; without an account those that make the first manager. */
export async function endLinks(db: Db, purpose: LinkPurpose, account?: AccountId): Promise<void> {
  await db
    .deleteFrom("one_time_link")
    .where("purpose", "=", purpose)
    .where(sql<boolean>`account is not distinct from ${account ?? null}`)
    .where("used_at", "is", null)
    .execute();
}

/** Reads a link without using it. Undefined when it was used, has ended or never was. */
export async function findLink(db: Db, tokenHash: Buffer, nowMs: number): Promise<OpenLink | undefined> {
  const row = await db
    .selectFrom("one_time_link")
    .select(["purpose", "account", "expires_at"])
    .where("token_hash", "=", tokenHash)
    .where("used_at", "is", null)
    .where("expires_at", ">", new Date(nowMs))
    .executeTakeFirst();
  return row && openLink(row);
}

/** Uses a link up, inside the transaction that does what it is for: of two at once one finds it gone. */
export async function spendLink(tx: Tx, tokenHash: Buffer, nowMs: number): Promise<OpenLink | undefined> {
  const row = await tx
    .updateTable("one_time_link")
    .set({ used_at: new Date(nowMs) })
    .where("token_hash", "=", tokenHash)
    .where("used_at", "is", null)
    .where("expires_at", ">", new Date(nowMs))
    .returning(["purpose", "account", "expires_at"])
    .executeTakeFirst();
  return row && openLink(row);
}

function openLink(row: { purpose: string; account: string | null; expires_at: Date }): OpenLink {
  return {
    purpose: row.purpose as LinkPurpose,
    expiresAtMs: row.expires_at.getTime(),
    ...(row.account ? { account: row.account as AccountId } : {}),
  };
}
