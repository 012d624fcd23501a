import type { ProblemLine } from "../cases/import-record.ts";
import type { ImportRegister } from "../cases/import-register.ts";
import { drawId } from "../cases/import-register.ts";
import { writeCsvFile } from "../domain/intake/csv-write.ts";
import { type ImportPreview, previewOf } from "../domain/intake/import-preview.ts";
import { layOutParked } from "../domain/intake/parked-rows.ts";
import { type PlannedMembers, planMembers } from "../domain/intake/plan-members.ts";
import { type PlannedModels, planModels } from "../domain/intake/plan-models.ts";
import { pieceToRegister } from "../domain/intake/plan-pieces.ts";
import { sayProblem } from "../domain/intake/say-problem.ts";
import type { ImportedPiece } from "../domain/register/import-pieces.ts";
import { hashFile } from "../intake/file-hash.ts";
import type { ReadFile } from "./read-file.ts";

/** What accepting a file would write. */
export type Plan =
  | { readonly what: "pieces"; readonly pieces: readonly ImportedPiece[] }
  | { readonly what: "members"; readonly planned: PlannedMembers }
  | { readonly what: "models"; readonly planned: PlannedModels };

/** Plans a file that was read; ids are drawn anew each time, and are in no digest. */
export function planFile({ read }: ReadFile, { known }: ImportRegister, nowMs: number): Plan {
  switch (read.what) {
    case "pieces":
      return {
        what: "pieces",
        pieces: read.table.accepted.map(({ draft }) => pieceToRegister(draft, drawId(nowMs))),
      };
    case "members": {
      const drafts = read.table.accepted.map(({ draft }) => draft);
      return { what: "members", planned: planMembers(drafts, known.members, () => drawId(nowMs)) };
    }
    case "models": {
      const drafts = read.table.accepted.map(({ draft }) => draft);
      return { what: "models", planned: planModels(drafts, known.models, () => drawId(nowMs)) };
    }
  }
}

/** Tells how many rows of a plan are new, change something, or say what is so already. */
export function countsOf(plan: Plan): ImportPreview["counts"] {
  if (plan.what === "pieces") return { fresh: plan.pieces.length, changed: 0, same: 0 };
  const { fresh, changed, same } = plan.planned;
  return { fresh: fresh.length, changed: changed.length, same };
}

/** What is kept of a file that was read: the preview, the parked rows as a file, and every problem at its row and column. */
export interface ToldFile {
  readonly preview: ImportPreview;
  readonly parkedCsv?: string;
  readonly problems: readonly ProblemLine[];
}

/** Tells a file that was read. */
export function tellFile(read: ReadFile, plan: Plan): ToldFile {
  const { file, columns, mapped } = read;
  const { accepted, parked } = read.read.table;
  const counts = countsOf(plan);
  const digest = digestOf(read, counts);
  const preview = previewOf({ headers: file.headers, columns, mapped, accepted, parked, counts, digest });
  const problems = parked.flatMap((row) =>
    row.problems.map(({ problem, column }): ProblemLine => {
      const header = file.headers[column ?? -1];
      const value = column === undefined ? undefined : row.cells[column];
      return {
        ...{ row: row.row, code: problem.code, says: sayProblem(problem, header) },
        ...(column === undefined ? {} : { column }),
        ...(header === undefined ? {} : { header }),
        ...(value === undefined ? {} : { value }),
      };
    }),
  );
  if (parked.length === 0) return { preview, problems };
  return { preview, problems, parkedCsv: writeCsvFile(layOutParked(file.headers, parked), file.separator) };
}

/** Names what would be written: the file, each accepted row as it was understood, and what is new or changed by it. */
function digestOf({ file, read }: ReadFile, counts: ImportPreview["counts"]): string {
  const rows = read.table.accepted.map(({ row, draft }) => [row, draft]);
  return hashFile(Buffer.from(JSON.stringify([file.hash, read.what, counts, rows])));
}
