import { Worker } from "node:worker_threads";
import type { Uuid } from "../domain/ids.ts";
import type { JobEnd, JobOrder } from "./job-order.ts";

/** What a thread is started with. */
export interface ThreadStart {
  readonly databaseUrl: string;
  /** What the server's clock is ahead of the machine's. */
  readonly clockAheadMs: number;
}
/** What a thread is told: work, or that nothing more comes. */
export type ToThread = { readonly job: Uuid; readonly order: JobOrder } | "close";
/** What it answers when a job ended, by itself or by a fault. */
export type FromThread = { readonly end: JobEnd } | { readonly fault: unknown };

/** The thread of one lane. It is started by the first order and stays for a while, since a start costs a second. */
export interface LaneThread {
  /** Runs one order; undefined when it was ended from outside. Rejects with the fault that it met. */
  run(job: Uuid, order: JobOrder): Promise<JobEnd | undefined>;
  /** Ends what runs, at once: the database rolls back what it had begun to write. */
  stop(): Promise<void>;
  /** Lets an idle thread go. */
  close(): Promise<void>;
}

const IDLE_MS = 60_000;
/** A file of 20 MB and an act of 50,000 rows take less; a thread that wants more ends alone and not the server. */
const THREAD_MEMORY_MB = 1_536;

/** Makes the thread of a lane; nothing runs before the first order. */
export function laneThread(threadFile: URL, startOf: () => ThreadStart): LaneThread {
  let thread: Worker | undefined;
  /** Threads that were ended from outside. The next order gets a new one, though the old may still be ending. */
  const stopped = new WeakSet<Worker>();
  let idle: NodeJS.Timeout | undefined;

  function start(): Worker {
    const fresh = new Worker(threadFile, {
      workerData: startOf(),
      resourceLimits: { maxOldGenerationSizeMb: THREAD_MEMORY_MB },
    });
    fresh.once("exit", () => {
      if (thread === fresh) thread = undefined;
    });
    return fresh;
  }

  async function close(): Promise<void> {
    clearTimeout(idle);
    const going = thread;
    if (!going) return;
    thread = undefined;
    const gone = new Promise((resolve) => going.once("exit", resolve));
    going.postMessage("close" satisfies ToThread);
    await gone;
  }

  return {
    async run(job, order) {
      clearTimeout(idle);
      thread ??= start();
      const current = thread;
      let stopHearing = () => {};
      try {
        return await new Promise<JobEnd | undefined>((resolve, reject) => {
          const onAnswer = (answer: FromThread) =>
            "end" in answer ? resolve(answer.end) : reject(answer.fault);
          const onExit = () =>
            stopped.has(current) ? resolve(undefined) : reject(new Error("The thread ended without a word."));
          current.on("message", onAnswer).on("error", reject).on("exit", onExit);
          stopHearing = () => {
            current.off("message", onAnswer).off("error", reject).off("exit", onExit);
          };
          current.postMessage({ job, order } satisfies ToThread);
        });
      } finally {
        stopHearing();
        idle = setTimeout(() => void close(), IDLE_MS).unref();
      }
    },
    async stop() {
      const going = thread;
      if (!going) return;
      stopped.add(going);
      thread = undefined;
      await going.terminate();
    },
    close,
  };
}
