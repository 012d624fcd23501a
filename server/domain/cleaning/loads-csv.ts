import { writeCsv } from "../intake/csv-write.ts";
import type { MachineRan } from "./machine-view.ts";

const HEADER = [
  "machine",
  "programme",
  "started",
  "ended",
  "outcome",
  "piece",
  "tag number",
  "now with",
  "washed since",
];

/** Writes what a machine ran as CSV, one row a piece. Instants are ISO 8601 in UTC. */
export function loadsCsv({ machine, loads }: MachineRan): string {
  const rows = loads.flatMap((load) =>
    load.pieces.map((piece) => [
      ...[machine.name, load.programme ?? "", load.startedAt, load.endedAt ?? "", load.outcome ?? ""],
      ...[piece.kind, piece.number ?? "", piece.where.name, piece.washedSince ? "yes" : "no"],
    ]),
  );
  return writeCsv([HEADER, ...rows]);
}
