import type { MachineAtCard, ProgrammeView } from "../../../server/domain/cleaning/machine-view.ts";
import type { PieceView } from "../../../server/domain/piece-view.ts";
import type { LoadMode, Mode } from "./mode.ts";

/** What the card of a machine's place means at a bench. */
export type MachineCardMeans =
  /** Nothing is on the tray and something runs: it has ended. */
  | { readonly does: "end"; readonly mode: LoadMode; readonly load: string }
  /** The next scans go in the machine. To a dryer comes what was washed last, when the tray is empty. */
  | { readonly does: "collect"; readonly mode: LoadMode; readonly brings: readonly PieceView[] };

/** Modes in which the card of a machine's place names the place alone, as any other place's card does. */
const NAMES_A_PLACE: ReadonlySet<Mode["kind"]> = new Set(["turn in", "as found", "wiped"]);

/** Says what a machine's card does; undefined where it only names its place. */
export function machineCardMeans(
  mode: Mode,
  trayIsEmpty: boolean,
  machine: MachineAtCard | undefined,
): MachineCardMeans | undefined {
  if (!machine || NAMES_A_PLACE.has(mode.kind)) return undefined;
  const load: LoadMode = { kind: "load", machine };
  const { running, waiting } = machine;
  // A dryer from which all was taken out has ended, whether somebody said so or not.
  const isDone = running?.pieces === 0 && dries(machine);
  if (running && !isDone && trayIsEmpty) return { does: "end", mode: load, load: running.load };
  return { does: "collect", mode: load, brings: trayIsEmpty && waiting ? waiting.pieces : [] };
}

function dries({ programmes }: MachineAtCard): boolean {
  return programmes.some(({ usual, how }) => usual && how === undefined);
}

/** Gives the programme that a load would start with. */
export function programmeOfMode({ machine, programme }: LoadMode): ProgrammeView | undefined {
  return machine.programmes.find((one) => (programme === undefined ? one.usual : one.id === programme));
}

/** Gives the mode after an act: a wiped place is told once, since the next place card would tell another. Keeps what runs in a machine now. What was waiting for a dryer is in it, once that is started. */
export function modeAfter(mode: Mode, running: MachineAtCard["running"] | null | undefined): Mode {
  if (mode.kind === "wiped") return { kind: "look up" };
  if (mode.kind !== "load" || running === undefined) return mode;
  const { running: _, waiting: __, ...machine } = mode.machine;
  return { ...mode, machine: running ? { ...machine, running } : machine };
}
