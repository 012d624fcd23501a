import type { TraceRecord } from "../domain/tracing/kept-trace.ts";
import { instantCell, type Projection } from "./projected-rows.ts";

/** Writes what is true of a kept trace as the rows that say it. */
export function rowsOfTrace({
  id,
  version,
  keptAt,
  keptBy,
  facts,
  outcomes,
  closedAt,
}: TraceRecord): Projection {
  return {
    trace: [
      {
        id,
        name: facts.name,
        direction: facts.direction,
        is_drill: facts.isDrill,
        read_position: facts.position,
        kept_at: instantCell(keptAt),
        kept_by: keptBy,
        contacts: facts.contacts.length,
        facts,
        closed_at: closedAt === undefined ? null : instantCell(closedAt),
        version,
      },
    ],
    trace_outcome: outcomes.map((one) => ({
      trace: id,
      piece: one.piece,
      outcome: one.outcome,
      outcome_at: instantCell(one.at),
      outcome_by: one.by,
      evidence: one.evidence,
      version: one.version,
    })),
  };
}
