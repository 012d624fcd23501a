import type { Db } from "../cases/database-handle.ts";
import type { JobLane, JobReason } from "../cases/job-record.ts";
import type { ActEnvelope } from "../cases/run-act.ts";
import type { Uuid } from "../domain/ids.ts";

/** Long work, as it is told to the thread that does it. `about` is the upload or the print run. */
export type JobOrder =
  | { readonly what: "read file"; readonly about: Uuid }
  | {
      readonly what: "bring in file";
      readonly about: Uuid;
      readonly digest: string;
      readonly envelope: ActEnvelope;
    };

/** Work of one lane is done one after the other. */
export const LANE_OF: Readonly<Record<JobOrder["what"], JobLane>> = {
  "read file": "import",
  "bring in file": "import",
};

/** How far a job has come; `total` 0 says that it cannot be told. */
export interface JobProgress {
  readonly step: string;
  readonly done: number;
  readonly total: number;
}

/** What a job has to work with, in whatever thread it runs. */
export interface JobSetting {
  readonly db: Db;
  readonly now: () => number;
  readonly onProgress: (progress: JobProgress) => void;
}

/** How a job ended by itself. What it made stands at what it was about. */
export type JobEnd = { readonly done: true } | { readonly reasons: readonly JobReason[] };
