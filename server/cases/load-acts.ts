import { foldLoad, type LoadState } from "../domain/cleaning/load.ts";
import { foldMachine, type MachineState } from "../domain/cleaning/machine.ts";
import {
  type ProviderLoad,
  type RememberLoad,
  recordProviderLoad,
  rememberLoad,
} from "../domain/cleaning/remember-load.ts";
import { type EndLoad, endLoad, type StartLoad, startLoad } from "../domain/cleaning/run-load.ts";
import { type Holder, holderId } from "../domain/custody/holder.ts";
import type { LoadId, MachineId, PieceId } from "../domain/ids.ts";
import type { Refusal } from "../domain/refusal.ts";
import { type ActScope, entriesOf, takeSubjects } from "../store/act-scope.ts";
import { piecesWithLoad, runningLoad } from "../store/loads.ts";
import { takeBenchPieces } from "../store/take-bench.ts";
import type { Act, ActEnvelope } from "./run-act.ts";

/** Locks a machine and folds it. */
async function takeMachine(scope: ActScope, id: MachineId): Promise<MachineState | undefined> {
  await takeSubjects(scope, "machine", [id]);
  return foldMachine(id, entriesOf(scope, "machine", id));
}

async function takeLoad(scope: ActScope, id: LoadId): Promise<LoadState | undefined> {
  await takeSubjects(scope, "load", [id]);
  return foldLoad(id, entriesOf(scope, "load", id));
}

async function takeBench(
  scope: ActScope,
  pieces: readonly PieceId[],
  { at, by, role }: ActEnvelope,
  looksAt = at,
  holders: readonly Holder[] = [],
) {
  const { strangers, ...taken } = await takeBenchPieces(scope, pieces, looksAt, holders);
  const refusals = strangers.map((holder): Refusal => {
    return { code: "unknown-subject", subject: holderId(holder) ?? by, what: holder.kind };
  });
  return { bench: { ...taken, at, by, role }, strangers: refusals };
}

const handled = (command: { readonly pieces: readonly { readonly piece: PieceId }[] }) =>
  command.pieces.map(({ piece }) => piece);

/** A new load's id must be new: an id that is taken is somebody else's load. */
async function isTaken(scope: ActScope, load: LoadId): Promise<boolean> {
  await takeSubjects(scope, "load", [load]);
  return entriesOf(scope, "load", load).length > 0;
}
const taken = (load: LoadId): { readonly refusals: readonly Refusal[] } => ({
  refusals: [{ code: "name-taken", what: "load", name: load }],
});

export const startLoadAct: Act<StartLoad> = {
  name: "startLoad",
  rules: "shared",
  async decide(scope, command, envelope) {
    const machine = await takeMachine(scope, command.machine);
    if (await isTaken(scope, command.load)) return taken(command.load);
    const open = await runningLoad(scope.tx, command.machine);
    const running = open && (await takeLoad(scope, open));
    const { bench } = await takeBench(scope, handled(command), envelope);
    return startLoad({ ...bench, machine, ...(running ? { running } : {}) }, command);
  },
};

export const endLoadAct: Act<EndLoad> = {
  name: "endLoad",
  rules: "shared",
  async decide(scope, command, envelope) {
    const load = await takeLoad(scope, command.load);
    const machine = load?.ran.in === "machine" ? await takeMachine(scope, load.ran.machine) : undefined;
    const { bench } = await takeBench(scope, await piecesWithLoad(scope.tx, command.load), envelope);
    return endLoad({ ...bench, machine, load }, command);
  },
};

export const rememberLoadAct: Act<RememberLoad> = {
  name: "rememberLoad",
  rules: "shared",
  async decide(scope, command, envelope) {
    const machine = await takeMachine(scope, command.machine);
    if (await isTaken(scope, command.load)) return taken(command.load);
    const to = command.to ? [command.to] : [];
    const { bench, strangers } = await takeBench(scope, handled(command), envelope, command.about, to);
    if (strangers.length > 0) return { refusals: strangers };
    return rememberLoad({ ...bench, machine }, command);
  },
};

export const recordProviderLoadAct: Act<ProviderLoad> = {
  name: "recordProviderLoad",
  rules: "shared",
  async decide(scope, command, envelope) {
    if (await isTaken(scope, command.load)) return taken(command.load);
    const provider: Holder = { kind: "provider", id: command.provider };
    const { bench, strangers } = await takeBench(scope, handled(command), envelope, command.to, [provider]);
    if (strangers.length > 0) return { refusals: strangers };
    return recordProviderLoad(bench, command);
  },
};
