import type { AccountId } from "../domain/ids.ts";
import type { Db } from "./db.ts";

/** Remembers a bench at which somebody signed in with a passphrase. */
export async function insertBenchDevice(
  db: Db,
  device: {
    readonly id: string;
    readonly tokenHash: Buffer;
    readonly enrolledBy: AccountId;
    readonly nowMs: number;
  },
): Promise<void> {
  await db
    .insertInto("bench_device")
    .values({
      id: device.id,
      token_hash: device.tokenHash,
      enrolled_by: device.enrolledBy,
      enrolled_at: new Date(device.nowMs),
    })
    .execute();
}

/** Finds the bench of a device token by its hash. */
export async function findBenchDevice(db: Db, tokenHash: Buffer): Promise<string | undefined> {
  const row = await db
    .selectFrom("bench_device")
    .select("id")
    .where("token_hash", "=", tokenHash)
    .executeTakeFirst();
  return row?.id;
}
