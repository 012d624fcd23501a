import type { Db } from "../cases/database-handle.ts";
import { drawId } from "../cases/import-register.ts";
import {
  askToCancel,
  beatJobs,
  endJob,
  insertJob,
  type JobLane,
  type JobReason,
} from "../cases/job-record.ts";
import type { AccountId, Uuid } from "../domain/ids.ts";
import { type JobEnd, type JobOrder, LANE_OF } from "./job-order.ts";
import { type LaneThread, laneThread } from "./lane-thread.ts";
import { wasBroughtIn } from "./run-import.ts";

/** Long work of one server: one import and one print at a time, each in a thread of its own, the rest in a short queue. */
export interface Jobs {
  /** Takes an order, or answers undefined while too much waits. */
  start(order: JobOrder, by: AccountId): Promise<Uuid | undefined>;
  /** Ends a job wherever it runs; what it had begun to write is rolled back. */
  cancel(id: Uuid): Promise<void>;
  /** Takes nothing more, ends what runs, and waits for the threads to be gone. */
  close(): Promise<void>;
}

export interface JobsOptions {
  readonly db: Db;
  readonly databaseUrl: string;
  /** Milliseconds since 1970. */
  readonly now: () => number;
  /** The file that a thread runs: the composition root of a thread. */
  readonly threadFile: URL;
  readonly onFault: (fault: unknown) => void;
}

interface Task {
  readonly id: Uuid;
  readonly order: JobOrder;
  isOnRecord?: boolean;
  running?: Promise<void>;
}
interface Lane {
  readonly tasks: Task[];
  readonly thread: LaneThread;
}

const MOST_WAITING = 10;
const BEAT_MS = 3_000;

const FAULT: JobReason = {
  code: "fault",
  what: "Not done.",
  why: "The server met a fault. Nothing was half done.",
  next: "Try again; if it stays, call who runs this server.",
};
const TOO_LARGE: JobReason = {
  code: "too-much-memory",
  what: "Not done.",
  why: "It takes more memory than one job may have. Nothing was half done.",
  next: "Split it into smaller parts.",
};

/** Opens the lanes of a server. */
export function openJobs({ db, databaseUrl, now, threadFile, onFault }: JobsOptions): Jobs {
  const startOf = () => ({ databaseUrl, clockAheadMs: now() - Date.now() });
  const openLane = (): Lane => ({ tasks: [], thread: laneThread(threadFile, startOf) });
  const lanes: Readonly<Record<JobLane, Lane>> = { import: openLane(), print: openLane() };
  let isClosed = false;
  let beat: NodeJS.Timeout | undefined;

  const all = () => Object.values(lanes).flatMap(({ tasks }) => tasks);

  /** Says every few seconds that this server is there, and hears what was cancelled at another one. */
  function keepBeating(): void {
    beat ??= setInterval(() => {
      const ids = all().map(({ id }) => id);
      if (ids.length === 0) {
        clearInterval(beat);
        beat = undefined;
        return;
      }
      beatJobs(db, ids)
        .then((cancelled) => Promise.all(cancelled.map(end)))
        .catch(onFault);
    }, BEAT_MS).unref();
  }

  function runNext(lane: Lane): void {
    const [task] = lane.tasks;
    if (!task?.isOnRecord || task.running || isClosed) return;
    task.running = lane.thread
      .run(task.id, task.order)
      .catch((fault): JobEnd => {
        onFault(fault);
        return { reasons: [isOutOfMemory(fault) ? TOO_LARGE : FAULT] };
      })
      .then((outcome) => settle(task, outcome))
      .catch(onFault)
      .finally(() => {
        lane.tasks.splice(lane.tasks.indexOf(task), 1);
        runNext(lane);
      });
  }

  /** A thread that was ended after it had written did its work all the same: what was written decides. */
  async function settle({ id, order }: Task, outcome: JobEnd | undefined): Promise<void> {
    if (!outcome) {
      const isWritten = order.what === "bring in file" && (await wasBroughtIn(db, order));
      return endJob(db, id, isWritten ? "done" : "cancelled");
    }
    if ("done" in outcome) return endJob(db, id, "done");
    const isFault = outcome.reasons.some((reason) => reason === FAULT || reason === TOO_LARGE);
    return endJob(db, id, isFault ? "failed" : "refused", outcome.reasons);
  }

  async function end(id: Uuid): Promise<void> {
    for (const lane of Object.values(lanes)) {
      const task = lane.tasks.find((each) => each.id === id);
      if (!task) continue;
      if (task.running) {
        await lane.thread.stop();
        await task.running;
      } else {
        lane.tasks.splice(lane.tasks.indexOf(task), 1);
        await endJob(db, id, "cancelled");
      }
    }
  }

  return {
    async start(order, by) {
      const name = LANE_OF[order.what];
      const { tasks } = lanes[name];
      if (isClosed || tasks.length > MOST_WAITING) return undefined;
      const id = drawId<Uuid>(now());
      const task: Task = { id, order };
      // It takes its place before the first await, so that two starts at once do not pass the limit together.
      tasks.push(task);
      try {
        await insertJob(db, { id, lane: name, by, what: order.what, about: order.about, step: "waiting" });
      } catch (failure) {
        tasks.splice(tasks.indexOf(task), 1);
        throw failure;
      }
      task.isOnRecord = true;
      keepBeating();
      runNext(lanes[name]);
      return id;
    },
    async cancel(id) {
      await askToCancel(db, id);
      await end(id);
    },
    async close() {
      isClosed = true;
      clearInterval(beat);
      await Promise.all(all().map(({ id }) => end(id)));
      await Promise.all(Object.values(lanes).map(({ thread }) => thread.close()));
    },
  };
}

function isOutOfMemory(fault: unknown): boolean {
  return fault instanceof Error && "code" in fault && fault.code === "ERR_WORKER_OUT_OF_MEMORY";
}
