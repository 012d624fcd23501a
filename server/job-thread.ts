import os from "node:os";
import { parentPort, workerData } from "node:worker_threads";
import { kyselyOn, openPool } from "../db/connect.ts";
import { markJob } from "./cases/job-record.ts";
import type { JobProgress } from "./jobs/job-order.ts";
import type { FromThread, ThreadStart, ToThread } from "./jobs/lane-thread.ts";
import { runJob } from "./jobs/run-job.ts";

/** The composition root of a thread: a small pool of its own, and one order after the other. */

/** How often progress goes to the database at most. */
const EVERY_MS = 250;

/** People at a bench go first. On Linux a priority is a thread's own; elsewhere it would be the whole server's. */
if (process.platform === "linux") os.setPriority(0, os.constants.priority.PRIORITY_BELOW_NORMAL);

const { databaseUrl, clockAheadMs } = workerData as ThreadStart;
const db = kyselyOn(openPool(databaseUrl, { max: 2, applicationName: "layertrail job" }));

async function work({ job, order }: Exclude<ToThread, "close">): Promise<FromThread> {
  let told = 0;
  let telling: Promise<unknown> = Promise.resolve();
  let step = "";
  const onProgress = (progress: JobProgress) => {
    const now = performance.now();
    if (now - told < EVERY_MS && progress.step === step) return;
    told = now;
    step = progress.step;
    telling = telling.then(() => markJob(db, job, progress)).catch(() => {});
  };
  try {
    onProgress({ step: "starting", done: 0, total: 0 });
    const end = await runJob(order, { db, now: () => Date.now() + clockAheadMs, onProgress });
    await telling;
    return { end };
  } catch (fault) {
    return { fault };
  }
}

parentPort?.on("message", async (told: ToThread) => {
  if (told === "close") {
    await db.destroy();
    parentPort?.close();
  } else parentPort?.postMessage(await work(told));
});
