import { z } from "@hono/zod-openapi";
import { findJob, type JobOnRecord } from "../../cases/job-record.ts";
import type { Session } from "../../cases/sessions.ts";
import type { AccountId, Uuid } from "../../domain/ids.ts";
import type { Role } from "../../domain/register/account.ts";
import { defineRoute } from "../define-route.ts";
import { problem } from "../problem.ts";
import type { Services } from "../services.ts";
import { id, idText, instantText, toInstantText } from "../wire.ts";

/** Who may start long work at all; what exactly, each route says. */
export const WORKS: readonly Role[] = ["technician", "inspector", "program manager"];

/** Why something was not done, in words. */
export const reason = z.object({ code: z.string(), what: z.string(), why: z.string(), next: z.string() });

export const jobOnWire = z
  .object({
    id: idText,
    what: z.string(),
    about: idText,
    state: z.enum(["waiting", "running", "done", "refused", "cancelled", "failed"]),
    step: z.string(),
    done: z.int(),
    /** 0 says that it cannot be told. */
    total: z.int(),
    reasons: z.array(reason),
    madeAt: instantText,
    endedAt: instantText.optional(),
  })
  .openapi("Job");

/** What starting long work is answered with. */
export const startedJob = z.object({ job: idText, about: idText }).openapi("StartedJob");

/** Writes a job as it goes over the wire. */
export function jobAnswer(job: JobOnRecord): z.input<typeof jobOnWire> {
  const { by: _, reasons, madeAt, endedAt, ...rest } = job;
  return {
    ...rest,
    reasons: [...reasons],
    madeAt: toInstantText(madeAt.getTime()),
    ...(endedAt ? { endedAt: toInstantText(endedAt.getTime()) } : {}),
  };
}

/** Lets through whoever started it and the program manager; to all others it is not there. */
export function refuseUnlessOwn(session: Session, by: AccountId): void {
  if (session.account !== by && session.role !== "program manager") {
    throw problem("not-found", "Nothing of yours has this id. Next: start again from the list.");
  }
}

/** Starts long work, or says that too much of it waits. */
export async function startJob(
  services: Services,
  order: Parameters<Services["jobs"]["start"]>[0],
  by: AccountId,
): Promise<{ job: string; about: string }> {
  const job = await services.jobs.start(order, by);
  if (!job) {
    throw problem("queue-full", "Nothing was started. Next: wait for the work that runs, then try again.", {
      headers: { "retry-after": "10" },
    });
  }
  return { job, about: order.about };
}

const params = z.object({ id: id<Uuid>() });

async function ownJob(services: Services, session: Session, job: Uuid): Promise<JobOnRecord> {
  const found = await findJob(services.db, job);
  if (!found) throw problem("not-found", "There is no such job. Next: start again from the list.");
  refuseUnlessOwn(session, found.by);
  return found;
}

/** Long work: how far it is, and its end before its time. */
export const jobRoutes = [
  defineRoute(
    {
      method: "get",
      path: "/api/jobs/{id}",
      roles: WORKS,
      summary: "How far a job is; for whoever started it, and the program manager",
      params,
      answer: jobOnWire,
    },
    async ({ params: { id: job }, session, services }) => jobAnswer(await ownJob(services, session, job)),
  ),
  defineRoute(
    {
      method: "post",
      path: "/api/jobs/{id}/cancel",
      roles: WORKS,
      summary: "End a job before its time; what it had begun to write is rolled back",
      params,
      body: z.object({}),
      answer: jobOnWire,
    },
    async ({ params: { id: job }, session, services }) => {
      await ownJob(services, session, job);
      await services.jobs.cancel(job);
      return jobAnswer(await ownJob(services, session, job));
    },
  ),
] as const;
