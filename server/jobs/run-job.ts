import type { JobEnd, JobOrder, JobSetting } from "./job-order.ts";
import { bringInFile, readUpload } from "./run-import.ts";

/** Does the work of an order, in whatever thread it is called. */
export function runJob(order: JobOrder, setting: JobSetting): Promise<JobEnd> {
  switch (order.what) {
    case "read file":
      return readUpload(order.about, setting);
    case "bring in file":
      return bringInFile(order, setting);
  }
}
