/** Jobs on record, for the rooms that may not import the store. */
export {
  askToCancel,
  beatJobs,
  endJob,
  findJob,
  insertJob,
  type JobLane,
  type JobOnRecord,
  type JobReason,
  lastJobOn,
  markJob,
} from "../store/jobs.ts";
