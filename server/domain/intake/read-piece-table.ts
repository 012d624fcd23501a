import type { PieceId } from "../ids.ts";
import type { LocalDate } from "../time.ts";
import type { PieceField } from "./columns.ts";
import { foldName } from "./fold-cell.ts";
import type { ColumnMapping } from "./map-columns.ts";
import type { FileRow, ParkedRow, Problem, ReadRow, ReadTable } from "./problem.ts";
import { type PieceDraft, readPieceRow } from "./read-piece-row.ts";
import type { RegisterIndex } from "./register-index.ts";
import { placeProblems } from "./row-reader.ts";

type PieceTable = ReadTable<PieceDraft, PieceField>;

/** The text by which a piece is one piece: maker, kind and serial where all are known. A lot never is. */
export function serialKey({ kind, label }: Pick<PieceDraft, "kind" | "label">): string | undefined {
  if (label.maker === undefined || label.serial === undefined) return undefined;
  return [foldName(label.maker), kind, foldName(label.serial)].join("\u0000");
}

/**
 * Reads all rows of a file of pieces: rows to register and rows parked with everything that is wrong with them.
 * Rows that name one piece twice (maker, kind and serial, or a foreign code) are all parked: nobody here knows which
 * is right. Rows without a filled cell are left out. 20,000 rows take well under a second.
 */
export function readPieceTable(
  rows: readonly FileRow[],
  columnCount: number,
  mapping: ColumnMapping<PieceField>,
  register: RegisterIndex,
  today: LocalDate,
): PieceTable {
  const accepted: ReadRow<PieceDraft>[] = [];
  const parked: ParkedRow<PieceField>[] = [];
  for (const row of rows) {
    if (isBlank(row)) continue;
    const reading = readPieceRow(row.cells, mapping, register, today);
    const beyond = cellsBeyond(row, columnCount);
    if ("draft" in reading && beyond.length === 0) accepted.push({ ...row, draft: reading.draft });
    else parked.push(park(row, [...("draft" in reading ? [] : reading.problems), ...beyond], mapping));
  }
  return parkTwice({ accepted, parked }, mapping);
}

/** Tells whether a row has no filled cell. */
export function isBlank({ cells }: FileRow): boolean {
  return cells.every((cell) => cell.trim() === "");
}

/** Returns the problem of a row with filled cells beyond the header's columns: a separator too many, or a stray quote. */
export function cellsBeyond({ cells }: FileRow, columns: number): readonly Problem<never>[] {
  const isBeyond = cells.slice(columns).some((cell) => cell.trim() !== "");
  return isBeyond ? [{ code: "cells-beyond-columns", cells: cells.length, columns }] : [];
}

/**
 * Parks the rows that the register has already, by maker, kind and serial or by foreign code. The caller looks the
 * keys up (`serialKey`, and foreign codes in lower case) and gives what it found.
 */
export function parkRegistered(
  table: PieceTable,
  mapping: ColumnMapping<PieceField>,
  bySerial: ReadonlyMap<string, PieceId>,
  byForeignCode: ReadonlyMap<string, PieceId>,
): PieceTable {
  return parkIf(table, mapping, ({ draft }) => {
    const key = serialKey(draft);
    const piece = key === undefined ? undefined : bySerial.get(key);
    const bound =
      draft.foreignCode === undefined ? undefined : byForeignCode.get(foldName(draft.foreignCode));
    const problems: Problem<PieceField>[] = [];
    if (piece)
      problems.push({ code: "in-register-already", field: "serial", value: draft.label.serial ?? "", piece });
    if (bound) {
      problems.push({
        code: "in-register-already",
        field: "foreignCode",
        value: draft.foreignCode ?? "",
        piece: bound,
      });
    }
    return problems;
  });
}

function parkTwice(table: PieceTable, mapping: ColumnMapping<PieceField>): PieceTable {
  const serials = rowsBy(table.accepted, ({ draft }) => serialKey(draft));
  const codes = rowsBy(table.accepted, ({ draft }) => draft.foreignCode && foldName(draft.foreignCode));
  return parkIf(table, mapping, ({ row, draft }) => {
    const others = (rows: readonly number[] | undefined) => (rows ?? []).filter((each) => each !== row);
    const sameSerial = others(serials.get(serialKey(draft) ?? ""));
    const sameCode = others(codes.get(foldName(draft.foreignCode ?? "")));
    const problems: Problem<PieceField>[] = [];
    if (sameSerial.length > 0) {
      problems.push({
        code: "same-in-file",
        field: "serial",
        value: draft.label.serial ?? "",
        rows: sameSerial,
      });
    }
    if (sameCode.length > 0) {
      problems.push({
        code: "same-in-file",
        field: "foreignCode",
        value: draft.foreignCode ?? "",
        rows: sameCode,
      });
    }
    return problems;
  });
}

function parkIf(
  { accepted, parked }: PieceTable,
  mapping: ColumnMapping<PieceField>,
  problemsOf: (row: ReadRow<PieceDraft>) => readonly Problem<PieceField>[],
): PieceTable {
  const kept: ReadRow<PieceDraft>[] = [];
  const added: ParkedRow<PieceField>[] = [];
  for (const row of accepted) {
    const problems = problemsOf(row);
    if (problems.length === 0) kept.push(row);
    else added.push(park(row, problems, mapping));
  }
  return { accepted: kept, parked: [...parked, ...added].sort((a, b) => a.row - b.row) };
}

function park(
  { row, cells }: FileRow,
  problems: readonly Problem<PieceField>[],
  mapping: ColumnMapping<PieceField>,
): ParkedRow<PieceField> {
  return { row, cells, problems: placeProblems(row, problems, mapping) };
}

function rowsBy(
  rows: readonly ReadRow<PieceDraft>[],
  keyOf: (row: ReadRow<PieceDraft>) => string | undefined,
): ReadonlyMap<string, readonly number[]> {
  const found = new Map<string, number[]>();
  for (const each of rows) {
    const key = keyOf(each);
    if (key === undefined) continue;
    const same = found.get(key);
    if (same) same.push(each.row);
    else found.set(key, [each.row]);
  }
  return found;
}
