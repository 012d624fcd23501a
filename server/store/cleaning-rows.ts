import type { LoadState } from "../domain/cleaning/load.ts";
import type { MachineState, Temperature } from "../domain/cleaning/machine.ts";
import { instantCell, type ProjectedRow, type Projection } from "./projected-rows.ts";

/** Writes what is true of a load as its row. */
export function rowsOfLoad(load: LoadState): Projection {
  const { ran } = load;
  const row: ProjectedRow = {
    id: load.id,
    machine: ran.in === "machine" ? ran.machine : null,
    place: ran.in === "machine" ? ran.place : null,
    programme: (ran.in === "machine" && ran.programme) || null,
    provider: ran.in === "provider" ? ran.provider : null,
    document: ran.in === "provider" ? ran.document : null,
    how: load.how ?? null,
    started_at: instantCell(load.startedAt),
    ended_at: load.endedAt === undefined ? null : instantCell(load.endedAt),
    outcome: load.outcome ?? null,
    about_at: load.said ? instantCell(load.said.at) : null,
    about_minutes: load.said?.minutes ?? null,
    despite: load.despite,
    evidence: load.evidence,
    ...temperatureCells("read", load.read),
    version: load.version,
  };
  return { load: [row] };
}

/** Writes what is true of a machine, its checks and its programmes as their rows. */
export function rowsOfMachine(machine: MachineState): Projection {
  const { id, version, name, what, place, closed } = machine;
  return {
    machine: [
      {
        ...{ id, name, what, place, closed, version },
        drum_diameter_mm: machine.drumDiameterMm ?? null,
        most_garments: machine.mostGarments ?? null,
      },
    ],
    machine_check: machine.checks.map((check) => ({
      machine: id,
      version: check.version,
      checked_at: instantCell(check.at),
      outcome: check.outcome,
    })),
    programme: machine.programmes.map((programme) => ({
      id: programme.id,
      machine: id,
      name: programme.name,
      how: programme.how ?? null,
      ...temperatureCells("temperature", programme.temperature),
      detergent_ph_tenths: programme.detergentPhTenths ?? null,
      extraction_rpm: programme.extractionRpm ?? null,
      minutes: programme.minutes ?? null,
      usual: programme.usual,
      ended: programme.ended,
    })),
  };
}

function temperatureCells(name: string, temperature: Temperature | undefined): ProjectedRow {
  return { [name]: temperature?.degrees ?? null, [`${name}_scale`]: temperature?.scale ?? null };
}
