import {
  type BenchState,
  type Handled,
  handledStates,
  holderAt,
  layersIn,
  onPiece,
} from "../bench/bench-state.ts";
import { cleaned } from "../contamination/clean-piece.ts";
import { stayAt } from "../custody/fold-stays.ts";
import type { Holder } from "../custody/holder.ts";
import type { Evidence } from "../evidence.ts";
import type { LoadId, MachineId, PieceId, ProgrammeId } from "../ids.ts";
import type { PieceMoved } from "../pieces/piece-entries.ts";
import type { PieceState } from "../pieces/piece-state.ts";
import type { Decided, Refusal } from "../refusal.ts";
import type { NewEntry } from "../subjects.ts";
import type { Instant } from "../time.ts";
import type { LoadEntry, LoadOutcome, LoadState } from "./load.ts";
import { checkLoad } from "./load-check.ts";
import { checkAt, type MachineState, type ProgrammeState, type Temperature } from "./machine.ts";

/** Puts pieces in a machine and starts it, as one act. Without a programme it is the machine's usual one. */
export interface StartLoad {
  readonly load: LoadId;
  readonly machine: MachineId;
  readonly programme?: ProgrammeId;
  readonly pieces: readonly Handled[];
  /** The program manager's reason for a programme over the limits. */
  readonly reason?: string;
}

export interface LoadBench extends BenchState {
  readonly machine: MachineState | undefined;
  /** The load that runs in the machine as far as the record knows. */
  readonly running?: LoadState;
}

/**
 * Decides the start of a load. Refused, with all reasons at once: by what the pieces are (`checkLoad`), by a machine that
 * is closed, faulty or running, and by a programme over the limits without the program manager's reason. A dryer or a
 * cabinet that was never ended is ended by its next load: nothing is claimed of what was in it.
 */
export function startLoad(bench: LoadBench, command: StartLoad): Decided<readonly NewEntry[]> {
  const { known, refusals: unknown } = handledStates(bench, command.pieces);
  const { machine, running, at } = bench;
  if (!machine) return { refusals: [{ code: "unknown-subject", subject: command.machine, what: "machine" }] };
  const programme = programmeOf(machine, command.programme);
  const refusals: Refusal[] = [...unknown, ...refuseMachine(bench, machine), ...refusePieces(bench, known)];
  if (!programme) return { refusals: [...refusals, { code: "no-programme", subject: machine.id }] };
  const pieces = withLayers(bench, known, programme);
  const found = checkLoad(
    bench,
    [...pieces.values()].map(({ state }) => state),
    { machine, programme },
  );
  const over = found.filter(({ code }) => code === "over-limits");
  refusals.push(...found.filter(({ code }) => code !== "over-limits"));
  const { reason } = command;
  if (over.length > 0 && reason === undefined) refusals.push(...over);
  if (over.length > 0 && reason !== undefined && bench.role !== "program manager") {
    refusals.push({ code: "role", needs: ["program manager"] });
  }
  if (refusals.length > 0) return { refusals };
  const started: LoadEntry = {
    ...{ kind: "LoadStarted", at, evidence: "scanned" },
    ran: { in: "machine", machine: machine.id, place: machine.place, programme: programme.id },
    ...(programme.how ? { how: programme.how } : {}),
    ...(over.length > 0 ? { despite: ["over-limits"] } : {}),
  };
  const texts = over.length > 0 && reason !== undefined ? { reason } : undefined;
  return {
    entries: [
      ...(running
        ? [onLoad(running.id, { kind: "LoadEnded", at, evidence: "presumed", outcome: "as programmed" })]
        : []),
      onLoad(command.load, started, texts),
      ...[...pieces.values()].map(({ state, evidence }) =>
        onPiece(state.id, putIn(bench, state, { ...command, place: machine.place, at, evidence })),
      ),
    ],
  };
}

/** Gives the programme that is named, or the machine's usual one; none that was given up. */
export function programmeOf(machine: MachineState, id?: ProgrammeId): ProgrammeState | undefined {
  return machine.programmes.find((one) => !one.ended && (id === undefined ? one.usual : one.id === id));
}

export interface Loaded {
  readonly state: PieceState;
  readonly evidence: Evidence;
}

/** What dries in its shell goes along with it; what is washed is washed apart, and `checkLoad` says so. */
function withLayers(
  bench: BenchState,
  known: readonly { state: PieceState; handled: Handled }[],
  programme: ProgrammeState,
): ReadonlyMap<PieceId, Loaded> {
  const pieces = new Map<PieceId, Loaded>();
  for (const { state, handled } of known) pieces.set(state.id, { state, evidence: handled.evidence });
  if (programme.how !== undefined) return pieces;
  for (const { state } of known) {
    for (const layer of layersIn(bench, state.id)) {
      if (!pieces.has(layer.id)) pieces.set(layer.id, { state: layer, evidence: "with its set" });
    }
  }
  return pieces;
}

function refuseMachine({ running, at }: LoadBench, machine: MachineState): Refusal[] {
  const refusals: Refusal[] = [];
  const subject = machine.id;
  if (machine.closed) refusals.push({ code: "closed", subject, what: "machine" });
  const check = checkAt(machine, at);
  if (check?.outcome === "faulty") refusals.push({ code: "machine-faulty", subject, since: check.at });
  if (running && !endsByItself(machine, running, at)) {
    refusals.push({ code: "load-running", subject, since: running.startedAt });
  }
  return refusals;
}

/** A dryer's end is seldom told. One that was started minutes ago is running all the same. */
function endsByItself(machine: MachineState, running: LoadState, at: Instant): boolean {
  if (machine.what !== "dryer" && machine.what !== "cabinet") return false;
  return !isTooEarly(machine, running, at);
}

/** A run that lasted less than half of its programme's minutes was no whole run. Own judgement. */
const WHOLE_RUN = 0.5;

function isTooEarly(machine: MachineState, load: LoadState, at: Instant): boolean {
  const minutes = minutesOf(machine, load);
  return minutes !== undefined && at - load.startedAt < minutes * 60_000 * WHOLE_RUN;
}

function minutesOf(machine: MachineState, { ran }: LoadState): number | undefined {
  if (ran.in !== "machine") return undefined;
  return machine.programmes.find(({ id }) => id === ran.programme)?.minutes;
}

function refusePieces(
  bench: BenchState,
  known: readonly { state: PieceState; handled: Handled }[],
): Refusal[] {
  return known.flatMap(({ state, handled }) => {
    const refusals: Refusal[] = [];
    const was = handled.reliedOn?.holder;
    if (was && !isSame(was, state.holder)) {
      refusals.push({ code: "changed", subject: state.id, what: "holder", was, is: state.holder });
    }
    if (state.retiredAt !== undefined && state.retiredAt <= bench.at) {
      refusals.push({ code: "retired", subject: state.id, at: state.retiredAt });
    }
    return refusals;
  });
}

function isSame(a: Holder, b: Holder): boolean {
  return a.kind === b.kind && ("id" in a ? a.id : "") === ("id" in b ? b.id : "");
}

/** The move that puts a piece in a machine with a load. */
export function putIn(
  bench: BenchState,
  state: PieceState,
  {
    load,
    place,
    at,
    evidence,
  }: { load: LoadId; place: MachineState["place"]; at: Instant; evidence: Evidence },
): PieceMoved {
  const from = holderAt(state, at);
  const to: Holder = { kind: "place", id: place };
  return { kind: "PieceMoved", at, evidence, from, to, purpose: "load", releasedBy: bench.by, load };
}

/** Wraps an entry on a load. */
export function onLoad(load: LoadId, entry: LoadEntry, texts?: Readonly<Record<string, string>>): NewEntry {
  return { subjectKind: "load", subject: load, entry, ...(texts ? { texts } : {}) };
}

/** Ends a load as programmed, or says that it was aborted. */
export interface EndLoad {
  readonly load: LoadId;
  readonly outcome: LoadOutcome;
  readonly read?: Temperature;
  readonly note?: string;
}

export interface EndingBench extends BenchState {
  readonly machine: MachineState | undefined;
  readonly load: LoadState | undefined;
}

/**
 * Decides the end of a load. As programmed, each piece that is still in it was cleaned; aborted, none was. Refuses a load
 * that is over, and an end as programmed long before the programme can be through.
 */
export function endLoad(bench: EndingBench, command: EndLoad): Decided<readonly NewEntry[]> {
  const { load, machine, at } = bench;
  if (!load) return { refusals: [{ code: "unknown-subject", subject: command.load, what: "load" }] };
  const subject = load.ran.in === "machine" ? load.ran.machine : load.ran.provider;
  if (load.endedAt !== undefined) return { refusals: [{ code: "load-over", subject, at: load.endedAt }] };
  const { outcome, read, note } = command;
  if (outcome === "as programmed" && machine && isTooEarly(machine, load, at)) {
    const minutes = minutesOf(machine, load) ?? 0;
    return { refusals: [{ code: "ended-early", subject, since: load.startedAt, minutes }] };
  }
  const ended: LoadEntry = {
    ...{ kind: "LoadEnded", at, evidence: "scanned", outcome },
    ...(read ? { read } : {}),
  };
  const how = outcome === "as programmed" ? load.how : undefined;
  const entries = how
    ? stillIn(bench, load.id).flatMap(({ state, evidence }) =>
        cleaned(state, { kind: "PieceCleaned", at, evidence, how, load: load.id }, bench.book),
      )
    : [];
  return { entries: [onLoad(load.id, ended, note === undefined ? undefined : { note }), ...entries] };
}

/**
 * Lists the pieces that are with a load at a moment, of those under lock. The load was seen to end; each piece is known
 * to have been in it as well as it was known to be put in.
 */
function stillIn(bench: BenchState, load: LoadId): readonly Loaded[] {
  return [...bench.pieces.values()].flatMap((state) => {
    const stay = stayAt(state.stays, bench.at);
    return stay?.load === load ? [{ state, evidence: stay.evidence }] : [];
  });
}
