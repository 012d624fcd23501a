import type { LoadId, MachineId, PieceId, PlaceId, ProgrammeId } from "../ids.ts";
import type { Named, PieceView, WireInstant } from "../piece-view.ts";
import type { MachineFacts, ProgrammeFacts } from "./machine.ts";
import type { LimitKind, OverLimit } from "./programme-limits.ts";

/** A programme as it is chosen from, with what comparing it with the limits says. */
export interface ProgrammeView extends ProgrammeFacts {
  readonly id: ProgrammeId;
  readonly usual: boolean;
  readonly over: readonly OverLimit[];
  readonly unknown: readonly LimitKind[];
  /** In G, computed from rpm and drum where both are on record. */
  readonly extractionG?: number;
}

/** A machine with what it can be set to and what runs in it. */
export interface MachineView extends Omit<MachineFacts, "place"> {
  readonly id: MachineId;
  readonly place: { readonly id: PlaceId; readonly name: string };
  readonly programmes: readonly ProgrammeView[];
  readonly running?: { readonly load: LoadId; readonly since: WireInstant; readonly pieces: number };
  readonly lastCheck?: { readonly at: WireInstant; readonly outcome: "in order" | "faulty" };
}

/** The machine whose card was scanned. To a dryer belongs what was washed last and still lies in its washer. */
export interface MachineAtCard extends MachineView {
  readonly waiting?: {
    readonly from: string;
    readonly endedAt: WireInstant;
    readonly pieces: readonly PieceView[];
  };
}

/** A load as a list shows it, with its pieces and where they are now. */
export interface LoadView {
  readonly id: LoadId;
  readonly startedAt: WireInstant;
  readonly endedAt?: WireInstant;
  readonly outcome?: "as programmed" | "aborted";
  readonly programme?: string;
  readonly how?: string;
  /** Of a load remembered late: when it was said to have ended, and by how many minutes that can be off. */
  readonly about?: { readonly at: WireInstant; readonly minutes: number };
  /** Codes of what would have stopped it. */
  readonly despite: readonly string[];
  readonly pieces: readonly LoadPiece[];
}

export interface LoadPiece {
  readonly id: PieceId;
  readonly kind: string;
  readonly number?: string;
  readonly where: Named;
  /** Whether it was washed again after this load, by the record. */
  readonly washedSince: boolean;
}

/** A machine with its checks, newest first. */
export interface MachinePage extends MachineView {
  readonly checks: readonly { readonly at: WireInstant; readonly outcome: "in order" | "faulty" }[];
}

/** What a machine ran in a time; with what bounds that time, where it comes from its checks. */
export interface MachineRan {
  readonly machine: { readonly id: MachineId; readonly name: string };
  readonly from?: WireInstant;
  readonly to?: WireInstant;
  readonly loads: readonly LoadView[];
}

/** Something of a person's that was found in gear. `what` is empty where the text was withdrawn. */
export interface FoundPropertyView {
  readonly receipt: string;
  readonly piece: PieceId;
  readonly kind: string;
  readonly number?: string;
  readonly what: string;
  readonly foundAt: WireInstant;
  readonly givenBackAt?: WireInstant;
  readonly givenBackTo?: string;
}
