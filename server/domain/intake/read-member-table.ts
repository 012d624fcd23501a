import type { PlaceId } from "../ids.ts";
import type { MemberField } from "./columns.ts";
import { foldName } from "./fold-cell.ts";
import type { ColumnMapping } from "./map-columns.ts";
import type { FileRow, ParkedRow, Problem, ReadRow, ReadTable } from "./problem.ts";
import { cellsBeyond, isBlank } from "./read-piece-table.ts";
import type { RegisterIndex } from "./register-index.ts";
import { placeProblems, rowReader } from "./row-reader.ts";

/** A member as a row of a roster has it. The name goes to the people's table, never to the ledger. */
export interface MemberDraft {
  readonly number: string;
  readonly name?: string;
  readonly station?: PlaceId;
  readonly shift?: string;
}

/**
 * Reads a roster: number, name (or first and last name), station and shift. Only the number is required. A number that
 * stands twice parks both rows. A number that the register has already is no problem: the row then lists that member anew.
 */
export function readMemberTable(
  rows: readonly FileRow[],
  columnCount: number,
  mapping: ColumnMapping<MemberField>,
  register: RegisterIndex,
): ReadTable<MemberDraft, MemberField> {
  const accepted: ReadRow<MemberDraft>[] = [];
  const parked: ParkedRow<MemberField>[] = [];
  const numbered = new Map<string, number[]>();
  const filled = rows.filter((row) => !isBlank(row));
  for (const { row, cells } of filled) {
    const number = rowReader(cells, mapping).text("number");
    if (number === undefined) continue;
    numbered.set(foldName(number), [...(numbered.get(foldName(number)) ?? []), row]);
  }
  for (const row of filled) {
    const { draft, problems } = readMemberRow(row, mapping, register, numbered);
    const all = [...problems, ...cellsBeyond(row, columnCount)];
    if (draft && all.length === 0) accepted.push({ ...row, draft });
    else parked.push({ ...row, problems: placeProblems(row.row, all, mapping) });
  }
  return { accepted, parked };
}

function readMemberRow(
  { row, cells }: FileRow,
  mapping: ColumnMapping<MemberField>,
  register: RegisterIndex,
  numbered: ReadonlyMap<string, readonly number[]>,
): { readonly draft?: MemberDraft; readonly problems: readonly Problem<MemberField>[] } {
  const reader = rowReader(cells, mapping);
  const number = reader.required("number");
  const parts = [reader.text("firstName"), reader.text("lastName")].filter((part) => part !== undefined);
  const name = reader.text("name") ?? (parts.length > 0 ? parts.join(" ") : undefined);
  const station = reader.listed("station", "station", register.station);
  const shift = reader.text("shift");
  if (number === undefined) return { problems: reader.problems };
  const others = (numbered.get(foldName(number)) ?? []).filter((each) => each !== row);
  if (others.length > 0) reader.add({ code: "same-in-file", field: "number", value: number, rows: others });
  const draft = {
    number,
    ...(name ? { name } : {}),
    ...(station ? { station } : {}),
    ...(shift ? { shift } : {}),
  };
  return { draft, problems: reader.problems };
}
