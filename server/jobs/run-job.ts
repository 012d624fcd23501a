import type { JobEnd, JobOrder, JobSetting } from "./job-order.ts";
import { drawCards } from "./run-cards.ts";
import { bringInFile, readUpload } from "./run-import.ts";
import { drawTags, markPrinted } from "./run-tags.ts";

/** Does the work of an order, in whatever thread it is called. */
export function runJob(order: JobOrder, setting: JobSetting): Promise<JobEnd> {
  switch (order.what) {
    case "read file":
      return readUpload(order.about, setting);
    case "bring in file":
      return bringInFile(order, setting);
    case "draw tags":
      return drawTags(order, setting);
    case "draw cards":
      return drawCards(order, setting);
    case "mark printed":
      return markPrinted(order, setting);
  }
}
