import { CsvError, parse } from "csv-parse";
import { type Separator, unguardCell } from "../domain/intake/csv-write.ts";
import type { FileRow } from "../domain/intake/problem.ts";
import { decodeText, type Encoding, type FileRefusal, MOST_ROWS } from "./decode-text.ts";
import { hashFile } from "./file-hash.ts";
import { sniffSeparator } from "./sniff-separator.ts";

/** A file as rows of cells. Row numbers are those that a spreadsheet shows: blank rows count, the header is one. */
export interface CsvFile {
  readonly hash: string;
  readonly encoding: Encoding;
  readonly separator: Separator;
  /** The first row with a filled cell. */
  readonly headers: readonly string[];
  readonly rows: readonly FileRow[];
}

/** Told while a file is read: characters read so far, of all. */
export type Progress = (done: number, all: number) => void;

/** Characters given to the parser at a time, so that progress shows and the thread is let go in between. */
const CHUNK = 1 << 16;

/**
 * Reads the bytes of a CSV file into its header and rows, or says why not. Reading is by RFC 4180, with any of
 * CRLF, LF and CR as line end, rows of unequal length, and a quote inside an unquoted cell taken as it stands (5" cuff).
 */
export async function readCsvFile(
  bytes: Uint8Array,
  onProgress: Progress = () => {},
): Promise<{ readonly file: CsvFile } | { readonly refusal: FileRefusal }> {
  const decoded = decodeText(bytes);
  if ("refusal" in decoded) return decoded;
  const { separator, skip } = sniffSeparator(decoded.text);
  const rows: FileRow[] = [];
  // The line that named the separator is a row in a spreadsheet.
  const firstRow = skip > 0 ? 1 : 0;
  let row = firstRow;
  try {
    for await (const cells of readRows(decoded.text.slice(skip), separator, onProgress)) {
      row += 1;
      rows.push({ row, cells });
      if (rows.length > MOST_ROWS + 1) return { refusal: { code: "too-many-rows", most: MOST_ROWS } };
    }
  } catch (error) {
    if (error instanceof CsvError && error.code === "CSV_QUOTE_NOT_CLOSED") {
      return { refusal: { code: "quote-never-closes", row: firstRow + Number(error["records"]) + 1 } };
    }
    throw error;
  }
  const header = rows.findIndex(({ cells }) => cells.some((cell) => cell.trim() !== ""));
  const headers = rows[header]?.cells;
  if (!headers) return { refusal: { code: "no-header" } };
  const { encoding } = decoded;
  return { file: { hash: hashFile(bytes), encoding, separator, headers, rows: rows.slice(header + 1) } };
}

/** Reads text as rows of cells, a part at a time; the guarding apostrophe of a formula start is taken away. */
export async function* readRows(
  text: string,
  separator: Separator,
  onProgress: Progress = () => {},
): AsyncGenerator<readonly string[]> {
  const parser = parse({
    delimiter: separator,
    record_delimiter: ["\r\n", "\n", "\r"],
    relax_column_count: true,
    relax_quotes: true,
    skip_empty_lines: false,
  });
  const feed = async () => {
    for (let at = 0; at < text.length; at += CHUNK) {
      const isFree = parser.write(text.slice(at, at + CHUNK));
      onProgress(Math.min(at + CHUNK, text.length), text.length);
      if (!isFree) await new Promise((resolve) => parser.once("drain", resolve));
    }
    parser.end();
  };
  const fed = feed();
  for await (const cells of parser as AsyncIterable<string[]>) yield cells.map(unguardCell);
  await fed;
}
