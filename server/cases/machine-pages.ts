import { type DoubtWindow, doubtWindow } from "../domain/cleaning/doubt-window.ts";
import type { FoundPropertyView, MachinePage, MachineRan } from "../domain/cleaning/machine-view.ts";
import type { MachineId } from "../domain/ids.ts";
import type { Instant } from "../domain/time.ts";
import type { Db } from "../store/db.ts";
import { listFoundProperty } from "../store/found-property.ts";
import { checksOf, loadsOf } from "../store/machine-loads.ts";
import { viewMachine } from "./machine-views.ts";

/** As many loads as one answer tells: a year and more of a busy machine. Own judgement. */
const MOST_LOADS = 5_000;

/** Shows a machine with its checks. Undefined when no open machine has this id. */
export async function readMachinePage(db: Db, id: MachineId): Promise<MachinePage | undefined> {
  const machine = await viewMachine(db, id);
  if (!machine) return undefined;
  const checks = await checksOf(db, id);
  return { ...machine, checks: checks.map(({ at, outcome }) => ({ at: wire(at), outcome })) };
}

/**
 * Answers what a machine ran around a moment at which it was found faulty: from its last good check before to the next
 * one after. Without a moment it is all that the machine ran. Undefined when no open machine has this id.
 */
export async function readMachineRan(
  db: Db,
  id: MachineId,
  foundAt: Instant | undefined,
): Promise<MachineRan | undefined> {
  const machine = await viewMachine(db, id);
  if (!machine) return undefined;
  const window: DoubtWindow = foundAt === undefined ? {} : doubtWindow(await checksOf(db, id), foundAt);
  const loads = await loadsOf(db, id, window, MOST_LOADS);
  return {
    machine: { id: machine.id, name: machine.name },
    ...(window.from === undefined ? {} : { from: wire(window.from) }),
    ...(window.to === undefined ? {} : { to: wire(window.to) }),
    loads,
  };
}

/** As many receipts as one answer tells. Own judgement. */
const MOST_RECEIPTS = 500;

/** Shows what was found in gear, what is still kept first. */
export function readFoundProperty(db: Db): Promise<readonly FoundPropertyView[]> {
  return listFoundProperty(db, MOST_RECEIPTS);
}

function wire(at: Instant): string {
  return new Date(at).toISOString();
}
