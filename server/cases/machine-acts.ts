import {
  foldMachine,
  type MachineFacts,
  type MachineState,
  type ProgrammeFacts,
} from "../domain/cleaning/machine.ts";
import type { MachineId, PlaceId, ProgrammeId } from "../domain/ids.ts";
import type { Decided, Refusal } from "../domain/refusal.ts";
import type { NewEntry } from "../domain/subjects.ts";
import type { Instant } from "../domain/time.ts";
import { type ActScope, entriesOf, takeSubjects } from "../store/act-scope.ts";
import { unknownHolders } from "../store/known-holders.ts";
import { machineAt, runningLoad } from "../store/loads.ts";
import type { Act } from "./run-act.ts";

/** Describes a machine, or describes it anew. One open machine stands at a place, so that the place's card names it. */
export interface DescribeMachine extends MachineFacts {
  readonly id: MachineId;
}
export const describeMachineAct: Act<DescribeMachine> = {
  name: "describeMachine",
  rules: "shared",
  async decide(scope, { id, ...machine }) {
    await takeSubjects(scope, "place", [machine.place]);
    await takeSubjects(scope, "machine", [id]);
    const refusals: Refusal[] = [];
    const unknown = await unknownHolders(scope.tx, [{ kind: "place", id: machine.place }]);
    if (unknown.length > 0) refusals.push({ code: "unknown-subject", subject: machine.place, what: "place" });
    const other = await machineAt(scope.tx, machine.place);
    if (other && other !== id) refusals.push({ code: "machine-there", subject: machine.place, by: other });
    if (refusals.length > 0) return { refusals };
    return { entries: [onMachine(id, { kind: "MachineDescribed", machine })] };
  },
};

/** Describes one programme of a machine, or describes it anew. The usual one is what the machine's card starts. */
export interface DescribeProgramme {
  readonly machine: MachineId;
  readonly id: ProgrammeId;
  readonly programme: ProgrammeFacts;
  readonly usual: boolean;
}
export const describeProgrammeAct: Act<DescribeProgramme> = {
  name: "describeProgramme",
  rules: "shared",
  decide: (scope, { machine: id, ...entry }) =>
    onKnown(scope, id, () => [onMachine(id, { kind: "ProgrammeDescribed", ...entry })]),
};

export interface EndProgramme {
  readonly machine: MachineId;
  readonly id: ProgrammeId;
}
export const endProgrammeAct: Act<EndProgramme> = {
  name: "endProgramme",
  rules: "shared",
  decide: (scope, { machine: id, id: programme }) =>
    onKnown(scope, id, () => [onMachine(id, { kind: "ProgrammeEnded", id: programme })]),
};

/** Records what a check of a machine found. What it ran since its last good check is then one question away. */
export interface CheckMachine {
  readonly machine: MachineId;
  readonly outcome: "in order" | "faulty";
  /** When it was found, where that was not now. */
  readonly checkedAt?: Instant;
  readonly note?: string;
}
export const checkMachineAct: Act<CheckMachine> = {
  name: "checkMachine",
  rules: "shared",
  decide: (scope, { machine: id, outcome, checkedAt, note }, { at }) =>
    onKnown(scope, id, () => [
      {
        ...onMachine(id, { kind: "MachineChecked", at: checkedAt ?? at, outcome }),
        ...(note === undefined ? {} : { texts: { note } }),
      } as NewEntry,
    ]),
};

export interface CloseMachine {
  readonly machine: MachineId;
}
export const closeMachineAct: Act<CloseMachine> = {
  name: "closeMachine",
  rules: "shared",
  async decide(scope, { machine: id }) {
    await takeSubjects(scope, "machine", [id]);
    const running = await runningLoad(scope.tx, id);
    const since = running && (await startOf(scope, running));
    if (since) return { refusals: [{ code: "load-running", subject: id, since }] };
    return onKnown(scope, id, () => [onMachine(id, { kind: "MachineClosed" })]);
  },
};

async function startOf(scope: ActScope, load: string): Promise<Instant> {
  const row = await scope.tx
    .selectFrom("load")
    .select("started_at")
    .where("id", "=", load)
    .executeTakeFirstOrThrow();
  return row.started_at.getTime() as Instant;
}

async function onKnown(
  scope: ActScope,
  id: MachineId,
  entries: (machine: MachineState) => readonly NewEntry[],
): Promise<Decided<readonly NewEntry[]>> {
  await takeSubjects(scope, "machine", [id]);
  const machine = foldMachine(id, entriesOf(scope, "machine", id));
  if (!machine) return { refusals: [{ code: "unknown-subject", subject: id, what: "machine" }] };
  return { entries: entries(machine) };
}

function onMachine(
  subject: MachineId,
  entry: Extract<NewEntry, { subjectKind: "machine" }>["entry"],
): NewEntry {
  return { subjectKind: "machine", subject, entry };
}

/** Says that a place itself was cleaned, such as a bench that was wiped. */
export interface WipePlace {
  readonly place: PlaceId;
  readonly evidence: "scanned" | "typed";
}
export const wipePlaceAct: Act<WipePlace> = {
  name: "wipePlace",
  rules: "shared",
  async decide(scope, { place, evidence }, { at }) {
    await takeSubjects(scope, "place", [place]);
    if (entriesOf(scope, "place", place).length === 0) {
      return { refusals: [{ code: "unknown-subject", subject: place, what: "place" }] };
    }
    return {
      entries: [{ subjectKind: "place", subject: place, entry: { kind: "PlaceWiped", at, evidence } }],
    };
  },
};
