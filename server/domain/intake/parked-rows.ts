import type { ParkedRow } from "./problem.ts";
import { sayProblem } from "./say-problem.ts";

/** Headers of the two columns that a file of parked rows has beyond its own; reading it again leaves them unused. */
export const PARKED_HEADERS = ["Row in the file", "Why this row was parked"] as const;

/**
 * Lays out parked rows for download: the file's own cells as they came, then the row's number and every reason.
 * Mended and brought in again it is read like any other file. Rows keep their order.
 */
export function layOutParked(
  headers: readonly string[],
  parked: readonly ParkedRow[],
): readonly (readonly string[])[] {
  const width = Math.max(headers.length, ...parked.map(({ cells }) => cells.length));
  const own = Array.from({ length: width }, (_, at) => at);
  return [
    [...own.map((at) => headers[at] ?? ""), ...PARKED_HEADERS],
    ...parked.map(({ row, cells, problems }) => [
      ...own.map((at) => cells[at] ?? ""),
      String(row),
      problems.map(({ problem, column }) => sayProblem(problem, headers[column ?? -1])).join(" "),
    ]),
  ];
}
