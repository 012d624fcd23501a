import type { Db } from "../cases/database-handle.ts";
import type { ImportWhat } from "../cases/import-record.ts";
import { findRegistered, type ImportRegister } from "../cases/import-register.ts";
import { type Column, MEMBER_COLUMNS, MODEL_COLUMNS, PIECE_COLUMNS } from "../domain/intake/columns.ts";
import { type MappedColumns, type MappingOverrides, mapColumns } from "../domain/intake/map-columns.ts";
import type { ReadTable } from "../domain/intake/problem.ts";
import { type MemberDraft, readMemberTable } from "../domain/intake/read-member-table.ts";
import { type ModelDraft, readModelTable } from "../domain/intake/read-model-table.ts";
import type { PieceDraft } from "../domain/intake/read-piece-row.ts";
import { parkRegistered, readPieceTable } from "../domain/intake/read-piece-table.ts";
import { indexRegister } from "../domain/intake/register-index.ts";
import { type CsvFile, type Progress, readCsvFile } from "../intake/csv-read.ts";
import type { FileRefusal } from "../intake/decode-text.ts";

/** A file as it was read: its rows by what they are, each accepted or parked. */
export type FileTable =
  | { readonly what: "pieces"; readonly table: ReadTable<PieceDraft> }
  | { readonly what: "members"; readonly table: ReadTable<MemberDraft> }
  | { readonly what: "models"; readonly table: ReadTable<ModelDraft> };

export interface ReadFile {
  readonly file: CsvFile;
  readonly columns: readonly Column[];
  readonly mapped: MappedColumns<string>;
  readonly read: FileTable;
}

/** The columns that a file of each sort can have, in the order of its template. */
export const COLUMNS_OF: Readonly<Record<ImportWhat, readonly Column[]>> = {
  pieces: PIECE_COLUMNS,
  models: MODEL_COLUMNS,
  members: MEMBER_COLUMNS,
};

/** What a person says of the columns: field to column, or null for none. */
export type Overrides = Readonly<Record<string, number | null>>;

/** Reads a file's bytes against the register. Writes nothing. */
export async function readFile(
  db: Db,
  given: { readonly bytes: Uint8Array; readonly what: ImportWhat; readonly overrides: Overrides },
  register: ImportRegister,
  onProgress: Progress = () => {},
): Promise<ReadFile | { readonly refusal: FileRefusal }> {
  const parsed = await readCsvFile(given.bytes, onProgress);
  if ("refusal" in parsed) return parsed;
  const { file } = parsed;
  switch (given.what) {
    case "pieces": {
      const mapped = map(file, PIECE_COLUMNS, given.overrides);
      const table = await readPieces(db, file, mapped, register);
      return { file, columns: PIECE_COLUMNS, mapped, read: { what: "pieces", table } };
    }
    case "members": {
      const mapped = map(file, MEMBER_COLUMNS, given.overrides);
      const index = indexRegister(register.known);
      const table = isWhole(mapped)
        ? readMemberTable(file.rows, file.headers.length, mapped.mapping, index)
        : NOTHING;
      return { file, columns: MEMBER_COLUMNS, mapped, read: { what: "members", table } };
    }
    case "models": {
      const mapped = map(file, MODEL_COLUMNS, given.overrides);
      const index = indexRegister(register.known);
      const table = isWhole(mapped)
        ? readModelTable(file.rows, file.headers.length, mapped.mapping, index, register.today)
        : NOTHING;
      return { file, columns: MODEL_COLUMNS, mapped, read: { what: "models", table } };
    }
  }
}

const NOTHING = { accepted: [], parked: [] } as const;

/** A file without a required column is not read at all: every row would be parked for the same reason. */
function isWhole(mapped: { readonly missing: readonly string[] }): boolean {
  return mapped.missing.length === 0;
}

function map<Field extends string>(
  file: CsvFile,
  columns: readonly Column<Field>[],
  overrides: Overrides,
): MappedColumns<Field> {
  return mapColumns(file.headers, columns, overrides as MappingOverrides<Field>);
}

async function readPieces(
  db: Db,
  file: CsvFile,
  mapped: MappedColumns<(typeof PIECE_COLUMNS)[number]["field"]>,
  register: ImportRegister,
): Promise<ReadTable<PieceDraft>> {
  if (!isWhole(mapped)) return NOTHING;
  const { mapping } = mapped;
  const index = indexRegister(register.known);
  const table = readPieceTable(file.rows, file.headers.length, mapping, index, register.today);
  const { bySerial, byCode } = await findRegistered(
    db,
    table.accepted.map(({ draft }) => draft),
  );
  return parkRegistered(table, mapping, bySerial, byCode);
}
