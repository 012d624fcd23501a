import { type BenchState, type Handled, handledStates, holderAt, onPiece } from "../bench/bench-state.ts";
import { cleaned } from "../contamination/clean-piece.ts";
import { stayAt } from "../custody/fold-stays.ts";
import { type Holder, isSameHolder } from "../custody/holder.ts";
import type { Evidence } from "../evidence.ts";
import type { LoadId, MachineId, ProgrammeId, ProviderId } from "../ids.ts";
import type { HowCleaned, PieceMoved } from "../pieces/piece-entries.ts";
import type { PieceState } from "../pieces/piece-state.ts";
import type { Decided, Refusal } from "../refusal.ts";
import type { NewEntry } from "../subjects.ts";
import type { Instant } from "../time.ts";
import type { LoadRan } from "./load.ts";
import { checkLoad } from "./load-check.ts";
import type { MachineState } from "./machine.ts";
import { onLoad, programmeOf } from "./run-load.ts";

const MINUTE = 60_000;

/** Writes down a load that nobody scanned: "these came out of Washer 2 at about …". */
export interface RememberLoad {
  readonly load: LoadId;
  readonly machine: MachineId;
  readonly programme?: ProgrammeId;
  readonly pieces: readonly Handled[];
  /** When they came out, and by how many minutes that can be off. */
  readonly about: Instant;
  readonly minutes: number;
  /** How long it ran, where the programme does not say. */
  readonly ranMinutes?: number;
  /** Where the pieces are now, when not in the machine any more. */
  readonly to?: Holder;
}

/**
 * Decides a load remembered late. It takes the widest time that fits what was said, so that a trace errs to the long
 * side; it is never refused for policy, and keeps what would have stopped it. Refused is what the record contradicts:
 * a piece that changed hands in between.
 */
export function rememberLoad(
  bench: BenchState & { readonly machine: MachineState | undefined },
  command: RememberLoad,
): Decided<readonly NewEntry[]> {
  const { machine } = bench;
  if (!machine) return { refusals: [{ code: "unknown-subject", subject: command.machine, what: "machine" }] };
  const programme = programmeOf(machine, command.programme);
  if (!programme) return { refusals: [{ code: "no-programme", subject: machine.id }] };
  const ranMinutes = command.ranMinutes ?? programme.minutes;
  if (ranMinutes === undefined) return { refusals: [{ code: "length-unknown", subject: machine.id }] };
  const { about, minutes } = command;
  const from = (about - (minutes + ranMinutes) * MINUTE) as Instant;
  const to = Math.min(about + minutes * MINUTE, bench.at) as Instant;
  const place: Holder = { kind: "place", id: machine.place };
  const { known, refusals: unknown } = handledStates(bench, command.pieces);
  const refusals = [...unknown, ...known.flatMap(({ state }) => movedBetween(state, from, to, place))];
  if (refusals.length > 0) return { refusals };
  const found = checkLoad(
    { ...bench, at: from },
    known.map(({ state }) => state),
    { machine, programme },
  );
  const { load } = command;
  const ran: LoadRan = { in: "machine", machine: machine.id, place: machine.place, programme: programme.id };
  const how = programme.how ? { how: programme.how } : {};
  const despite = [...new Set(found.map(({ code }) => code))].sort();
  return {
    entries: [
      onLoad(load, {
        ...{
          kind: "LoadStarted",
          at: from,
          evidence: "described",
          ran,
          ...how,
          said: { at: about, minutes },
        },
        ...(despite.length > 0 ? { despite } : {}),
      }),
      onLoad(load, { kind: "LoadEnded", at: to, evidence: "described", outcome: "as programmed" }),
      ...known.flatMap(({ state, handled }) =>
        wentThrough(
          bench,
          state,
          { load, from, to, holder: place, how: programme.how },
          {
            evidence: handled.evidence,
            ...(command.to ? { leftTo: command.to } : {}),
          },
        ),
      ),
    ],
  };
}

/** Writes down, by a provider's manifest, what it cleaned together. */
export interface ProviderLoad {
  readonly load: LoadId;
  readonly provider: ProviderId;
  readonly document: string;
  readonly how: HowCleaned;
  readonly pieces: readonly Handled[];
  readonly from: Instant;
  readonly to: Instant;
}

/** Decides a load at a provider. Refused are pieces that were not with that provider for all of the time told. */
export function recordProviderLoad(bench: BenchState, command: ProviderLoad): Decided<readonly NewEntry[]> {
  const { load, provider, document, how, from, to } = command;
  const holder: Holder = { kind: "provider", id: provider };
  const { known, refusals: unknown } = handledStates(bench, command.pieces);
  const elsewhere = known.flatMap(({ state }): Refusal[] => {
    const was = holderAt(state, from);
    return isSameHolder(was, holder) ? [] : [{ code: "not-there", subject: state.id, holder, was, at: from }];
  });
  const moved =
    elsewhere.length > 0 ? [] : known.flatMap(({ state }) => movedBetween(state, from, to, holder));
  const refusals = [...unknown, ...elsewhere, ...moved];
  if (refusals.length > 0) return { refusals };
  const evidence = "told by provider" as const;
  return {
    entries: [
      onLoad(load, {
        kind: "LoadStarted",
        at: from,
        evidence,
        ran: { in: "provider", provider, document },
        how,
      }),
      onLoad(load, { kind: "LoadEnded", at: to, evidence, outcome: "as programmed" }),
      ...known.flatMap(({ state }) =>
        wentThrough(bench, state, { load, from, to, holder, how }, { evidence, leftTo: holder }),
      ),
    ],
  };
}

/** Reasons why a piece was not in one machine all the time: it changed hands in between. Its end may be the end. */
function movedBetween(state: PieceState, from: Instant, to: Instant, holder: Holder): Refusal[] {
  const stay = stayAt(state.stays, from);
  if (stay && (stay.to === undefined || stay.to >= to)) return [];
  const next = state.stays.find((one) => one.from > from);
  return [{ code: "moved-between", subject: state.id, holder, at: next?.from ?? from }];
}

interface Through {
  readonly load: LoadId;
  readonly from: Instant;
  readonly to: Instant;
  readonly holder: Holder;
  readonly how: HowCleaned | undefined;
}

/** Into the load, cleaned at its end, and back to where the record has it after that, so that later moves still fit. */
function wentThrough(
  bench: BenchState,
  state: PieceState,
  { load, from, to, holder, how }: Through,
  { evidence, leftTo }: { readonly evidence: Evidence; readonly leftTo?: Holder },
): NewEntry[] {
  const was = holderAt(state, from);
  const stay = stayAt(state.stays, from);
  const wentOn = stay?.to !== undefined;
  const move = { kind: "PieceMoved", evidence, purpose: "load", releasedBy: bench.by } as const;
  const put: PieceMoved = { ...move, at: from, from: was, to: holder, load };
  const left = wentOn ? was : leftTo;
  return [
    onPiece(state.id, put),
    ...(how ? cleaned(state, { kind: "PieceCleaned", at: to, evidence, how, load }, bench.book) : []),
    ...(left ? [onPiece(state.id, { ...move, at: to, from: holder, to: left })] : []),
  ];
}
