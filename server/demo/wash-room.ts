import { endLoadAct, rememberLoadAct, startLoadAct } from "../cases/load-acts.ts";
import { checkMachineAct, describeMachineAct, describeProgrammeAct } from "../cases/machine-acts.ts";
import type { MachineFacts, ProgrammeFacts } from "../domain/cleaning/machine.ts";
import type { LoadId, MachineId, PieceId, PlaceId, ProgrammeId } from "../domain/ids.ts";
import type { Instant } from "../domain/time.ts";
import type { Department } from "./found-department.ts";
import { type Demo, must, scanned, type Worker } from "./hands.ts";

/** How long the demo's machines run, in minutes. */
export const WASH_MINUTES = 45;
export const DRY_MINUTES = 90;

const WASHING: ProgrammeFacts = {
  ...{ name: "Turnout gear", how: "advanced cleaning", temperature: { degrees: 105, scale: "F" } },
  ...{ detergentPhTenths: 90, extractionRpm: 480, minutes: WASH_MINUTES },
};
/** Over the department's limits, so that somebody can see what happens then. */
const HOT: ProgrammeFacts = {
  ...WASHING,
  name: "Hot, station linen",
  temperature: { degrees: 140, scale: "F" },
};
const DRYING: ProgrammeFacts = {
  ...{ name: "No heat", temperature: { degrees: 75, scale: "F" }, minutes: DRY_MINUTES },
};

/** The machines of the gear cage; each stands at the place of its name. */
const MACHINES: readonly (readonly [Omit<MachineFacts, "place">, readonly ProgrammeFacts[]])[] = [
  [{ name: "Washer 1", what: "washer-extractor", drumDiameterMm: 762, mostGarments: 6 }, [WASHING, HOT]],
  [{ name: "Washer 2", what: "washer-extractor", drumDiameterMm: 660, mostGarments: 5 }, [WASHING]],
  [{ name: "Dryer 1", what: "dryer", mostGarments: 8 }, [DRYING]],
  [{ name: "Dryer 2", what: "dryer", mostGarments: 8 }, [DRYING]],
];

/** Puts the machines where their cards are, with their programmes and a first check. The first programme is the usual one. */
export async function equipWashRoom(
  demo: Demo,
  by: Worker,
  places: Readonly<Record<string, PlaceId>>,
): Promise<Readonly<Record<string, MachineId>>> {
  const machines: Record<string, MachineId> = {};
  for (const [facts, programmes] of MACHINES) {
    const id = demo.chance.id<MachineId>(demo.clock.now());
    const place = places[facts.name];
    if (!place) throw new Error(`The demo has no place for ${facts.name}.`);
    await must(demo, by, describeMachineAct, { id, place, ...facts });
    for (const [index, programme] of programmes.entries()) {
      const programmeId = demo.chance.id<ProgrammeId>(demo.clock.now());
      const command = { machine: id, id: programmeId, programme, usual: index === 0 };
      await must(demo, by, describeProgrammeAct, command);
    }
    await must(demo, by, checkMachineAct, { machine: id, outcome: "in order" });
    machines[facts.name] = id;
  }
  return machines;
}

function machineNamed(department: Department, name: string): MachineId {
  const machine = department.machines[name];
  if (!machine) throw new Error(`The demo has no machine ${name}.`);
  return machine;
}

/** Starts a load and gives its id. */
export async function load(
  demo: Demo,
  department: Department,
  machine: string,
  pieces: readonly PieceId[],
): Promise<LoadId> {
  const id = demo.chance.id<LoadId>(demo.clock.now());
  const command = { load: id, machine: machineNamed(department, machine), pieces: scanned(...pieces) };
  await must(demo, department.tobin, startLoadAct, command);
  return id;
}

export async function unload(demo: Demo, department: Department, id: LoadId): Promise<void> {
  await must(demo, department.tobin, endLoadAct, { load: id, outcome: "as programmed" });
}

/** A run that the power cut short: nothing was cleaned, and the load is run again. */
export async function abortedRun(
  demo: Demo,
  department: Department,
  machine: string,
  pieces: readonly PieceId[],
): Promise<void> {
  const id = await load(demo, department, machine, pieces);
  demo.clock.pass(12);
  const note = "The power went out.";
  await must(demo, department.tobin, endLoadAct, { load: id, outcome: "aborted", note });
}

/** Once a quarter each machine is checked. */
export async function checkMachines(demo: Demo, department: Department): Promise<void> {
  for (const machine of Object.values(department.machines)) {
    await must(demo, department.inez, checkMachineAct, { machine, outcome: "in order" });
  }
}

/** A washer is found to have run without detergent; it is mended two days later. What it ran in between is one question. */
export async function faultyWasher(demo: Demo, department: Department, day: number): Promise<void> {
  const machine = machineNamed(department, "Washer 2");
  demo.clock.at(day, 14);
  const note = "The detergent pump gave nothing; nobody knows since when.";
  await must(demo, department.inez, checkMachineAct, { machine, outcome: "faulty", note });
  demo.clock.at(day + 1, 11);
  const mended = "Pump replaced, dosing measured.";
  await must(demo, department.inez, checkMachineAct, { machine, outcome: "in order", note: mended });
}

/** Nobody scanned what was washed in the evening: the next morning it is written down, with a wide time. */
export async function rememberedLoad(
  demo: Demo,
  department: Department,
  pieces: readonly PieceId[],
  about: number,
): Promise<void> {
  await must(demo, department.tobin, rememberLoadAct, {
    ...{ load: demo.chance.id<LoadId>(demo.clock.now()), machine: machineNamed(department, "Washer 1") },
    ...{ pieces: scanned(...pieces), about: about as Instant, minutes: 30 },
  });
}
