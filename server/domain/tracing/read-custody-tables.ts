import type { CustodyHistory, HistoryCleaning, HistoryHolder, HistoryStay } from "./custody-history.ts";
import { type Microsecond, readMoment, writeMoment } from "./moment.ts";
import type { Carries } from "./trace-view.ts";

/** A row of a file with the line on which it begins; the header is one too. */
export interface LinedRow {
  readonly line: number;
  readonly cells: readonly string[];
}

/** One file of a history that was kept on paper. */
export interface CustodyTable {
  /** As the person called it. */
  readonly name: string;
  /** The first is the header. Rows without any filled cell are left out already. */
  readonly rows: readonly LinedRow[];
}

/** What is wrong with a row, worded to follow its line. */
export interface RowFault {
  readonly file: string;
  readonly line: number;
  readonly says: string;
}

export interface CustodyTables {
  readonly stays: CustodyTable;
  readonly holders: CustodyTable;
  readonly cleanings?: CustodyTable;
}

const CARRIES: readonly Carries[] = ["closed", "shared", "apart"];

/**
 * Reads a custody history from tables: stays `piece,holder,from,to`, holders `holder,carries,cleaned`, cleanings
 * `piece,at`; columns are found by their header, others are passed over. Gives every fault of every row at once. Refuses
 * stays of one piece that overlap; touching is fine. A cleaning of a piece without stays changes nothing.
 */
export function readCustodyTables(
  tables: CustodyTables,
): { readonly history: CustodyHistory } | { readonly faults: readonly RowFault[] } {
  const faults: RowFault[] = [];
  const holders = readHolders(tables.holders, faults);
  const known = new Set(holders.map(({ id }) => id));
  const stays = readStays(tables.stays, known, faults);
  const cleanings = tables.cleanings ? readCleanings(tables.cleanings, faults) : [];
  return faults.length > 0 ? { faults } : { history: { stays, holders, cleanings } };
}

/** Reads the rows of one table: finds its columns, and hands each row's cells with a way to tell a fault. */
function readRows(
  table: CustodyTable,
  columns: readonly string[],
  mayLack: readonly string[],
  faults: RowFault[],
  read: (cells: readonly string[], tell: (says: string) => void, line: number) => void,
): void {
  const [header, ...rows] = table.rows;
  const names = header?.cells.map((cell) => cell.trim().toLowerCase()) ?? [];
  const places = columns.map((column) => names.indexOf(column));
  const missing = columns.filter((column, index) => (places[index] ?? -1) < 0 && !mayLack.includes(column));
  if (missing.length > 0) {
    const says = `the header lacks ${missing.join(", ")}: it is ${columns.join(",")}`;
    faults.push({ file: table.name, line: header?.line ?? 1, says });
    return;
  }
  for (const { line, cells } of rows) {
    const tell = (says: string) => {
      faults.push({ file: table.name, line, says });
    };
    const least = places.filter((_, index) => !mayLack.includes(columns[index] ?? ""));
    const surplus = cells.findIndex((cell, index) => index >= names.length && cell.trim() !== "");
    if (Math.max(...least) >= cells.length) tell(`has ${cells.length} cells, the header ${names.length}`);
    else if (surplus >= 0)
      tell(`has ${cells.length} cells, the header ${names.length}: quote a cell that holds a separator`);
    else
      read(
        places.map((place) => cells[place]?.trim() ?? ""),
        tell,
        line,
      );
  }
}

function readTime(text: string, what: string, tell: (says: string) => void): Microsecond | undefined {
  if (text === "") {
    tell(`${what} is empty`);
    return undefined;
  }
  const read = readMoment(text);
  if ("at" in read) return read.at;
  tell(`${what} "${text}" ${read.fault}`);
  return undefined;
}

function readHolders(table: CustodyTable, faults: RowFault[]): HistoryHolder[] {
  const holders: HistoryHolder[] = [];
  const lineOf = new Map<string, number>();
  readRows(
    table,
    ["holder", "carries", "cleaned"],
    ["cleaned"],
    faults,
    ([id = "", how = "", cleaned = ""], tell, line) => {
      if (id === "") tell("the holder is empty");
      const before = lineOf.get(id);
      if (before !== undefined) tell(`the holder "${id}" is on line ${before} already`);
      else if (id !== "") lineOf.set(id, line);
      const carries = CARRIES.find((each) => each === how.toLowerCase());
      if (!carries) tell(`carries is "${how}", not closed, shared or apart`);
      const times = cleaned
        .split(";")
        .map((time) => time.trim())
        .filter((time) => time !== "");
      const cleanings = times.flatMap((time) => readTime(time, "cleaned", tell) ?? []);
      if (carries && id !== "") holders.push({ id, carries, cleanings });
    },
  );
  return holders;
}

function readStays(table: CustodyTable, holders: ReadonlySet<string>, faults: RowFault[]): HistoryStay[] {
  const stays: (HistoryStay & { readonly line: number })[] = [];
  readRows(
    table,
    ["piece", "holder", "from", "to"],
    [],
    faults,
    ([piece = "", holder = "", start = "", end = ""], tell, line) => {
      if (piece === "") tell("the piece is empty");
      if (holder === "") tell("the holder is empty");
      else if (!holders.has(holder)) tell(`the holder "${holder}" is not in the file of holders`);
      const from = readTime(start, "from", tell);
      const to = end === "" ? undefined : readTime(end, "to", tell);
      if (from === undefined || (end !== "" && to === undefined)) return;
      if (to !== undefined && to < from) {
        tell(`ends at ${writeMoment(to)}, before it begins at ${writeMoment(from)}`);
        return;
      }
      if (piece !== "") stays.push({ piece, holder, from, line, ...(to === undefined ? {} : { to }) });
    },
  );
  tellOverlaps(table, stays, faults);
  return stays;
}

function tellOverlaps(
  table: CustodyTable,
  stays: readonly (HistoryStay & { readonly line: number })[],
  faults: RowFault[],
): void {
  const end = (stay: HistoryStay) => stay.to ?? Number.POSITIVE_INFINITY;
  const inOrder = [...stays].sort(
    (a, b) =>
      (a.piece === b.piece ? 0 : a.piece < b.piece ? -1 : 1) ||
      a.from - b.from ||
      (end(a) === end(b) ? a.line - b.line : end(a) - end(b)),
  );
  let reach = inOrder[0];
  for (const stay of inOrder.slice(1)) {
    if (reach && stay.piece === reach.piece && stay.from < end(reach)) {
      const [later, earlier] = stay.line > reach.line ? [stay, reach] : [reach, stay];
      const says = `the stay of "${stay.piece}" overlaps its stay on line ${earlier.line}`;
      faults.push({ file: table.name, line: later.line, says });
    }
    if (!reach || stay.piece !== reach.piece || end(stay) > end(reach)) reach = stay;
  }
}

function readCleanings(table: CustodyTable, faults: RowFault[]): HistoryCleaning[] {
  const cleanings: HistoryCleaning[] = [];
  readRows(table, ["piece", "at"], [], faults, ([piece = "", time = ""], tell) => {
    if (piece === "") tell("the piece is empty");
    const at = readTime(time, "at", tell);
    if (at !== undefined && piece !== "") cleanings.push({ piece, at });
  });
  return cleanings;
}
