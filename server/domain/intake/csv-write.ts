/** The separators that a file may have. */
export type Separator = "," | ";" | "\t";

/**
 * What a spreadsheet takes for a formula. A cell that begins so goes out with one leading apostrophe, and so does one
 * that begins with apostrophes and then this, so that what comes in is always what went out.
 */
const FORMULA_START = /^'*[=+\-@\t\r]/;
const GUARDED = /^'+[=+\-@\t\r]/;

/** Puts one leading apostrophe before a cell that a spreadsheet would run: = + - @ TAB CR. */
export function guardCell(cell: string): string {
  return FORMULA_START.test(cell) ? `'${cell}` : cell;
}

/** Takes the leading apostrophe of `guardCell` away again. Other apostrophes stay ("'90s"). */
export function unguardCell(cell: string): string {
  return GUARDED.test(cell) ? cell.slice(1) : cell;
}

/**
 * Writes rows as CSV text: CRLF after each row (or LF, for programs that read line by line), cells quoted where they hold a separator, a quote or a line break
 * (RFC 4180), formula starts guarded. All three separators are quoted, since a spreadsheet may part at any of them.
 * A row of one empty cell is written as "" so that it is still a row.
 */
export function writeCsv(
  rows: readonly (readonly string[])[],
  separator: Separator = ",",
  lineEnd: "\r\n" | "\n" = "\r\n",
): string {
  return rows.map((cells) => `${writeRow(cells, separator)}${lineEnd}`).join("");
}

function writeRow(cells: readonly string[], separator: Separator): string {
  if (cells.length === 1 && cells[0] === "") return '""';
  return cells.map((cell) => quoteCell(guardCell(cell))).join(separator);
}

function quoteCell(cell: string): string {
  return /[",;\t\r\n]/.test(cell) || cell.trim() !== cell ? `"${cell.replaceAll('"', '""')}"` : cell;
}

/** Writes a whole file as text: the byte order mark by which a spreadsheet knows UTF-8, then the rows. */
export function writeCsvFile(rows: readonly (readonly string[])[], separator: Separator = ","): string {
  return `\ufeff${writeCsv(rows, separator)}`;
}

/** Writes the template for a kind of file: its headers alone, so that nothing made up can be brought in by mistake. */
export function writeTemplate(columns: readonly { readonly header: string }[]): string {
  return writeCsvFile([columns.map(({ header }) => header)]);
}
