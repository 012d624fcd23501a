import type { Uuid } from "../domain/ids.ts";
import type { Db } from "../store/db.ts";
import { type ProblemLine, keepPreview as writePreview } from "../store/imports.ts";

/** Files on their way in and files that were brought in, for the rooms that may not import the store. */
export {
  type BroughtIn,
  closeUpload,
  dropUpload,
  findBroughtIn,
  findUpload,
  type ImportWhat,
  keepColumns,
  keepUpload,
  listBroughtIn,
  listProblems,
  type ProblemLine,
  parkedCsvOf,
  parkedCsvOfFile,
  type Upload,
  uploadBytes,
} from "../store/imports.ts";

/** Keeps what reading a file came to, all of it or none. */
export async function keepPreview(
  db: Db,
  id: Uuid,
  preview: {
    readonly summary: unknown;
    readonly parkedCsv?: string;
    readonly problems: readonly ProblemLine[];
  },
): Promise<void> {
  await db.transaction().execute((tx) => writePreview(tx, id, preview));
}
