import type { MachineAtCard, MachineView } from "../domain/cleaning/machine-view.ts";
import { checkProgramme, limitsFrom, type ProgrammeLimits } from "../domain/cleaning/programme-limits.ts";
import type { MachineId, PlaceId } from "../domain/ids.ts";
import type { Db } from "../store/db.ts";
import { readSettings } from "../store/list-register.ts";
import { lookUp } from "../store/look-up.ts";
import { type MachineOnRecord, readMachines, waitingLoad } from "../store/machine-facts.ts";
import { viewOfPiece } from "./piece-view.ts";

/** Shows all open machines, each programme compared with the department's limits. */
export async function viewMachines(db: Db): Promise<readonly MachineView[]> {
  const [machines, settings] = await Promise.all([readMachines(db), readSettings(db)]);
  return machines.map((machine) => machineView(machine, limitsFrom(settings)));
}

/** Shows one open machine; undefined when no open one has this id. */
export async function viewMachine(db: Db, machine: MachineId): Promise<MachineView | undefined> {
  const [[found], settings] = await Promise.all([readMachines(db, { machine }), readSettings(db)]);
  return found && machineView(found, limitsFrom(settings));
}

/**
 * Shows the machine that stands at a place whose card was scanned. With one that dries come the pieces that were washed
 * last and still lie in their washer, as a proposal for the tray.
 */
export async function machineAtCard(
  db: Db,
  place: PlaceId,
  nowMs: number,
): Promise<MachineAtCard | undefined> {
  const [found] = await readMachines(db, { place });
  if (!found) return undefined;
  const view = machineView(found, limitsFrom(await readSettings(db)));
  const dries = view.programmes.some(({ usual, how }) => usual && how === undefined);
  const waiting = dries ? await waitingLoad(db, found.id, nowMs) : undefined;
  if (!waiting) return view;
  const pieces = [];
  for (const id of waiting.pieces) {
    const found = await lookUp(db, { piece: id });
    if (found?.garment) pieces.push(viewOfPiece(found.garment));
  }
  return { ...view, waiting: { from: waiting.from, endedAt: waiting.endedAt.toISOString(), pieces } };
}

function machineView(machine: MachineOnRecord, limits: ProgrammeLimits): MachineView {
  const { place, placeName, programmes, running, lastCheck, ...facts } = machine;
  return {
    ...facts,
    place: { id: place, name: placeName },
    programmes: programmes.map((programme) => {
      const { over, unknown, g } = checkProgramme(machine, programme, limits);
      return { ...programme, over, unknown, ...(g === undefined ? {} : { extractionG: g }) };
    }),
    ...(running ? { running: { ...running, since: running.since.toISOString() } } : {}),
    ...(lastCheck ? { lastCheck: { ...lastCheck, at: lastCheck.at.toISOString() } } : {}),
  };
}
