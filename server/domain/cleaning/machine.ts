import type { MachineId, PlaceId, ProgrammeId } from "../ids.ts";
import type { HowCleaned, Versioned } from "../pieces/piece-entries.ts";
import type { Instant } from "../time.ts";

export const MACHINE_SORTS = ["washer-extractor", "dryer", "cabinet", "by hand"] as const;
export type MachineSort = (typeof MACHINE_SORTS)[number];

/** A machine stands at a place; its card is its place's card. */
export interface MachineFacts {
  readonly name: string;
  readonly what: MachineSort;
  readonly place: PlaceId;
  readonly drumDiameterMm?: number;
  /** As many shells or liners as it takes at once, by its maker or the department; unknown when absent. */
  readonly mostGarments?: number;
}

/** A temperature as it was read, in the scale in which it was read: 105 °F and 40 °C are two rounded figures. */
export interface Temperature {
  readonly degrees: number;
  readonly scale: "F" | "C";
}

/** What a machine can be set to do. What is not known stays unknown, and nothing is computed from it. */
export interface ProgrammeFacts {
  readonly name: string;
  /** What a run of it does to the pieces; absent for one that only dries. */
  readonly how?: HowCleaned;
  /** Of the water, or of the air in a dryer. */
  readonly temperature?: Temperature;
  /** Of the detergent, in tenths: 105 for pH 10.5. */
  readonly detergentPhTenths?: number;
  readonly extractionRpm?: number;
  readonly minutes?: number;
}

export type MachineEntry =
  | { readonly kind: "MachineDescribed"; readonly machine: MachineFacts }
  | {
      readonly kind: "MachineChecked";
      readonly at: Instant;
      readonly outcome: "in order" | "faulty";
    }
  | {
      readonly kind: "ProgrammeDescribed";
      readonly id: ProgrammeId;
      readonly programme: ProgrammeFacts;
      /** The one that the machine's card starts. */
      readonly usual: boolean;
    }
  | { readonly kind: "ProgrammeEnded"; readonly id: ProgrammeId }
  | { readonly kind: "MachineClosed" };

export interface ProgrammeState extends ProgrammeFacts {
  readonly id: ProgrammeId;
  readonly usual: boolean;
  readonly ended: boolean;
}
export interface MachineCheck {
  readonly at: Instant;
  readonly outcome: "in order" | "faulty";
  readonly version: number;
}
export interface MachineState extends MachineFacts {
  readonly id: MachineId;
  readonly version: number;
  readonly closed: boolean;
  readonly programmes: readonly ProgrammeState[];
  /** In the order of their times. */
  readonly checks: readonly MachineCheck[];
}

/**
 * Folds a machine's entries: the last description of it and of each programme holds, and the programme that was made
 * usual last is its one usual one. Undefined before it is described.
 */
export function foldMachine(
  id: MachineId,
  entries: readonly Versioned<MachineEntry>[],
): MachineState | undefined {
  let facts: MachineFacts | undefined;
  let closed = false;
  let usual: ProgrammeId | undefined;
  const programmes = new Map<ProgrammeId, ProgrammeFacts & { readonly ended: boolean }>();
  const checks: MachineCheck[] = [];
  for (const { version, entry } of entries) {
    switch (entry.kind) {
      case "MachineDescribed":
        facts = entry.machine;
        closed = false;
        break;
      case "MachineChecked":
        checks.push({ at: entry.at, outcome: entry.outcome, version });
        break;
      case "ProgrammeDescribed":
        programmes.set(entry.id, { ...entry.programme, ended: false });
        if (entry.usual) usual = entry.id;
        else if (usual === entry.id) usual = undefined;
        break;
      case "ProgrammeEnded": {
        const ended = programmes.get(entry.id);
        if (ended) programmes.set(entry.id, { ...ended, ended: true });
        if (usual === entry.id) usual = undefined;
        break;
      }
      case "MachineClosed":
        closed = true;
        break;
      default:
        entry satisfies never;
    }
  }
  if (!facts) return undefined;
  return {
    id,
    version: entries.at(-1)?.version ?? 0,
    ...facts,
    closed,
    programmes: [...programmes].map(([programme, told]) => ({
      id: programme,
      ...told,
      usual: programme === usual,
    })),
    checks: checks.sort((a, b) => a.at - b.at || a.version - b.version),
  };
}

/** Gives the check that speaks for a machine at a moment: the last one up to it. */
export function checkAt(machine: MachineState, at: Instant): MachineCheck | undefined {
  return machine.checks.findLast((check) => check.at <= at);
}
