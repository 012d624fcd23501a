import { sql } from "kysely";
import type { AccountId, Uuid } from "../domain/ids.ts";
import type { Db } from "./db.ts";

export type JobLane = "import" | "print";
export type JobState = "waiting" | "running" | "done" | "refused" | "cancelled" | "failed";

/** One reason why a job did not do its work, in words. */
export interface JobReason {
  readonly code: string;
  readonly what: string;
  readonly why: string;
  readonly next: string;
}

export interface JobOnRecord {
  readonly id: Uuid;
  readonly what: string;
  readonly about: Uuid;
  readonly by: AccountId;
  readonly state: JobState;
  readonly step: string;
  readonly done: number;
  readonly total: number;
  readonly reasons: readonly JobReason[];
  readonly madeAt: Date;
  readonly endedAt?: Date;
}

/** A server that has said nothing for so long is gone, and its jobs with it. Own judgement: five missed beats. */
const DEAD_AFTER_SECONDS = 15;

/** Puts a job on record as waiting. */
export async function insertJob(
  db: Db,
  job: {
    readonly id: Uuid;
    readonly lane: JobLane;
    readonly what: string;
    readonly about: Uuid;
    readonly by: AccountId;
    readonly step: string;
  },
): Promise<void> {
  await db
    .insertInto("job")
    .values({ ...job, state: "waiting" })
    .execute();
}

/** Says how far a job has come. A job that has ended stays as it ended. */
export async function markJob(
  db: Db,
  id: Uuid,
  at: { readonly step: string; readonly done: number; readonly total: number },
): Promise<void> {
  await db
    .updateTable("job")
    .set({ ...at, state: "running", beat_at: sql`clock_timestamp()` })
    .where("id", "=", id)
    .where("ended_at", "is", null)
    .execute();
}

/** Ends a job, once: the first ending holds. */
export async function endJob(
  db: Db,
  id: Uuid,
  state: Exclude<JobState, "waiting" | "running">,
  reasons: readonly JobReason[] = [],
): Promise<void> {
  await db
    .updateTable("job")
    .set({ state, reasons: JSON.stringify(reasons), ended_at: sql`clock_timestamp()` })
    .where("id", "=", id)
    .where("ended_at", "is", null)
    .execute();
}

/** Says that the server of these jobs is there, and names those that somebody asked to cancel. */
export async function beatJobs(db: Db, ids: readonly Uuid[]): Promise<Uuid[]> {
  const beaten = await sql<{ id: Uuid; cancel_asked: boolean }>`
    update job set beat_at = clock_timestamp() where id = any(${ids}::uuid[]) and ended_at is null
    returning id, cancel_asked`.execute(db);
  return beaten.rows.flatMap(({ id, cancel_asked }) => (cancel_asked ? [id] : []));
}

/** Asks whichever server runs the job to cancel it. */
export async function askToCancel(db: Db, id: Uuid): Promise<void> {
  await db.updateTable("job").set({ cancel_asked: true }).where("id", "=", id).execute();
}

/** Reads a job. One whose server is gone is ended here: it died with its server, and nothing is half done. */
export async function findJob(db: Db, id: Uuid): Promise<JobOnRecord | undefined> {
  await sql`update job set state = 'failed', ended_at = clock_timestamp(), reasons = ${JSON.stringify(SERVER_GONE)}
    where id = ${id}::uuid and ended_at is null
      and beat_at < clock_timestamp() - make_interval(secs => ${DEAD_AFTER_SECONDS})`.execute(db);
  const row = await db.selectFrom("job").selectAll().where("id", "=", id).executeTakeFirst();
  return row && jobFromRow(row);
}

/** Finds the newest job on an upload or a print run. */
export async function lastJobOn(db: Db, about: Uuid): Promise<JobOnRecord | undefined> {
  const newest = await db
    .selectFrom("job")
    .select("id")
    .where("about", "=", about)
    .orderBy("made_at", "desc")
    .limit(1)
    .executeTakeFirst();
  return newest && findJob(db, newest.id as Uuid);
}

const SERVER_GONE: readonly JobReason[] = [
  {
    code: "server-gone",
    what: "Not done.",
    why: "The server that worked on it ended.",
    next: "Start it again; nothing was half done.",
  },
];

function jobFromRow(row: {
  id: string;
  what: string;
  about: string;
  by: string;
  state: JobState;
  step: string;
  done: number;
  total: number;
  reasons: unknown;
  made_at: Date;
  ended_at: Date | null;
}): JobOnRecord {
  const { what, state, step, done, total } = row;
  return {
    ...{ what, state, step, done, total },
    ...{ id: row.id as Uuid, about: row.about as Uuid, by: row.by as AccountId },
    reasons: row.reasons as readonly JobReason[],
    madeAt: row.made_at,
    ...(row.ended_at ? { endedAt: row.ended_at } : {}),
  };
}
