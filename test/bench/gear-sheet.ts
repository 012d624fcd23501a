import { PIECE_COLUMNS, type PieceField } from "../../server/domain/intake/columns.ts";
import { writeCsvFile } from "../../server/domain/intake/csv-write.ts";

/** A sheet of pieces as departments keep them, one row a piece. Serials and codes are new in each run. */
export function gearSheet(rows: number, run: string): Buffer {
  const headers = PIECE_COLUMNS.map(({ header }) => header);
  return Buffer.from(writeCsvFile([headers, ...Array.from({ length: rows }, (_, n) => sheetRow(n, run))]));
}

function sheetRow(n: number, run: string): readonly string[] {
  const cells: Partial<Record<PieceField, string>> = {
    kind: n % 2 === 0 ? "Coat outer shell" : "Coat liner",
    maker: "Tarnholt",
    modelName: n % 2 === 0 ? "Ridge 40" : "RL 4",
    size: `${40 + (n % 12)} 32 R`,
    serial: `${run}-${n}`,
    lot: `L-${n % 40}`,
    madeOn: `20${10 + (n % 15)}-0${1 + (n % 9)}`,
    price: "1850.00",
    foreignCode: `${run}.${n}`,
    note: n % 10 === 0 ? "cuff mended, look again" : "",
  };
  return PIECE_COLUMNS.map(({ field }) => cells[field] ?? "");
}
