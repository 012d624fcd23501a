import type { Column } from "./columns.ts";
import type { MappedColumns } from "./map-columns.ts";
import type { FileRow, ParkedRow, PlacedProblem } from "./problem.ts";
import { sayProblem } from "./say-problem.ts";

/** What reading a file came to, as the person sees it before anything is written. */
export interface ImportPreview {
  readonly headers: readonly string[];
  readonly columns: readonly PreviewColumn[];
  /** Required fields without a column: no row was read. */
  readonly missing: readonly string[];
  /** Columns of the file that hold no field, counted from 0. */
  readonly unused: readonly number[];
  readonly contested: readonly { readonly field: string; readonly columns: readonly number[] }[];
  /** Filled rows; each is accepted, parked, or says what the register says already. */
  readonly rows: number;
  readonly accepted: number;
  readonly parked: number;
  readonly counts: { readonly fresh: number; readonly changed: number; readonly same: number };
  /** The first rows that can come in, as the file has them. */
  readonly sample: readonly FileRow[];
  /** Problems that say the same of the same column, the most frequent first. */
  readonly groups: readonly ProblemGroup[];
  readonly missingPlaces: readonly MissingPlace[];
  /** Names what would be written; accepting it is refused when the register has changed this since. */
  readonly digest: string;
}

export interface PreviewColumn {
  readonly field: string;
  readonly header: string;
  readonly howToWrite: string;
  readonly isRequired: boolean;
  readonly at?: number;
}
export interface ProblemGroup {
  readonly code: string;
  readonly header?: string;
  readonly says: string;
  readonly rows: number;
  readonly firstRow: number;
}
/** A place that rows name and the register lacks; it can be made before the file is read again. */
export interface MissingPlace {
  readonly name: string;
  readonly what: "place" | "station";
  readonly rows: number;
}

const MOST_GROUPS = 200;
const SAMPLE_ROWS = 5;

/** What a file was read to, in the parts that a preview tells. */
export interface ReadToPreview {
  readonly headers: readonly string[];
  readonly columns: readonly Column[];
  readonly mapped: MappedColumns<string>;
  readonly accepted: readonly FileRow[];
  readonly parked: readonly ParkedRow[];
  readonly counts: ImportPreview["counts"];
  readonly digest: string;
}

/** Makes the preview of a file. Problems are told one by one elsewhere; here those that are alike stand together. */
export function previewOf(read: ReadToPreview): ImportPreview {
  const { headers, columns, mapped, accepted, parked, counts, digest } = read;
  const problems = parked.flatMap((row) => row.problems);
  return {
    ...{ headers, missing: mapped.missing, unused: mapped.unused, contested: mapped.contested },
    columns: columns.map(({ field, header, howToWrite, isRequired }) => {
      const at = mapped.mapping[field];
      return { field, header, howToWrite, isRequired, ...(at === undefined ? {} : { at }) };
    }),
    rows: accepted.length + parked.length,
    ...{ accepted: accepted.length, parked: parked.length, counts, digest },
    sample: accepted.slice(0, SAMPLE_ROWS).map(({ row, cells }) => ({ row, cells })),
    groups: groupProblems(problems, headers),
    missingPlaces: placesNamed(problems),
  };
}

function groupProblems(problems: readonly PlacedProblem[], headers: readonly string[]): ProblemGroup[] {
  const groups = new Map<string, ProblemGroup>();
  for (const { row, column, problem } of problems) {
    const header = headers[column ?? -1];
    const says = sayProblem(problem, header);
    const known = groups.get(says);
    const fresh = { code: problem.code, says, rows: 1, firstRow: row, ...(header ? { header } : {}) };
    groups.set(says, known ? { ...known, rows: known.rows + 1 } : fresh);
  }
  return [...groups.values()]
    .sort((a, b) => b.rows - a.rows || a.firstRow - b.firstRow)
    .slice(0, MOST_GROUPS);
}

function placesNamed(problems: readonly PlacedProblem[]): MissingPlace[] {
  const named = new Map<string, MissingPlace>();
  for (const { problem } of problems) {
    if (problem.code !== "not-in-register") continue;
    const { what, value: name } = problem;
    if (what !== "place" && what !== "station") continue;
    const key = name.toLowerCase();
    const known = named.get(key);
    named.set(key, known ? { ...known, rows: known.rows + 1 } : { name, what, rows: 1 });
  }
  return [...named.values()].sort((a, b) => b.rows - a.rows);
}
