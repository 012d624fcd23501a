import { sql } from "kysely";
import type { AccountId, MemberId, PlaceId } from "../domain/ids.ts";
import type { Role } from "../domain/register/account.ts";
import type { Db } from "./db.ts";

export type SessionStrength = "full" | "badge";

/** Who is signed in, as the record has it at this moment. */
export interface Session {
  readonly account: AccountId;
  readonly role: Role;
  readonly strength: SessionStrength;
  readonly device: string;
  readonly name: string;
  readonly member?: MemberId;
  readonly station?: PlaceId;
}

/** A session lapses after a shift without a request, and is marked as seen once a minute at most. Own judgement. */
const IDLE_MS = 14 * 3_600_000;
const SEEN_EVERY_MS = 60_000;

/**
 * Finds the session of a token by its hash, in one query, from the tables as they are now: an account that was
 * closed by any server process has no session from that moment on. Undefined when it ended, lapsed or never was.
 */
export async function findSession(db: Db, tokenHash: Buffer, nowMs: number): Promise<Session | undefined> {
  const found = await sql<SessionRow>`/* prepared: find-session */
    select s.account, s.strength, s.device, s.seen_at, a.role, a.member, a.station,
      coalesce(own.name, listed.name, '') as name
    from session s join account a on a.id = s.account and not a.closed
      left join person own on own.id = a.id
      left join person listed on listed.id = a.member
    where s.token_hash = ${tokenHash} and s.ended_at is null and s.expires_at > ${new Date(nowMs)}
      and s.seen_at > ${new Date(nowMs - IDLE_MS)}`.execute(db);
  const row = found.rows[0];
  if (!row) return undefined;
  if (row.seen_at.getTime() < nowMs - SEEN_EVERY_MS) await markSeen(db, tokenHash, nowMs);
  return {
    ...{ account: row.account, role: row.role, strength: row.strength, device: row.device, name: row.name },
    ...(row.member ? { member: row.member } : {}),
    ...(row.station ? { station: row.station } : {}),
  };
}

interface SessionRow {
  readonly account: AccountId;
  readonly strength: SessionStrength;
  readonly device: string;
  readonly seen_at: Date;
  readonly role: Role;
  readonly member: MemberId | null;
  readonly station: PlaceId | null;
  readonly name: string;
}

async function markSeen(db: Db, tokenHash: Buffer, nowMs: number): Promise<void> {
  await db
    .updateTable("session")
    .set({ seen_at: new Date(nowMs) })
    .where("token_hash", "=", tokenHash)
    .execute();
}

/** Sessions that ended this long ago are taken away when a new one starts. */
const KEPT_MS = 30 * 86_400_000;

/** Starts a session. The token itself is never stored. */
export async function insertSession(
  db: Db,
  session: {
    readonly tokenHash: Buffer;
    readonly account: AccountId;
    readonly device: string;
    readonly strength: SessionStrength;
    readonly nowMs: number;
    readonly lastsMs: number;
  },
): Promise<void> {
  const now = new Date(session.nowMs);
  await db
    .deleteFrom("session")
    .where("expires_at", "<", new Date(session.nowMs - KEPT_MS))
    .execute();
  await db
    .insertInto("session")
    .values({
      token_hash: session.tokenHash,
      account: session.account,
      device: session.device,
      strength: session.strength,
      started_at: now,
      seen_at: now,
      expires_at: new Date(session.nowMs + session.lastsMs),
    })
    .execute();
}

/** Ends one session; a session that ended before stays as it was. */
export async function endSession(db: Db, tokenHash: Buffer, nowMs: number): Promise<void> {
  await db
    .updateTable("session")
    .set({ ended_at: new Date(nowMs) })
    .where("token_hash", "=", tokenHash)
    .where("ended_at", "is", null)
    .execute();
}

/** Ends all sessions of an account, as a new passphrase and a closed account do. */
export async function endSessionsOf(db: Db, account: AccountId, nowMs: number): Promise<void> {
  await db
    .updateTable("session")
    .set({ ended_at: new Date(nowMs) })
    .where("account", "=", account)
    .where("ended_at", "is", null)
    .execute();
}
