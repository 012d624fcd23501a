import {
  type BenchState,
  fittingAt,
  type Handled,
  handledStates,
  holderAt,
  layersIn,
  onPiece,
} from "../bench/bench-state.ts";
import type { Evidence } from "../evidence.ts";
import type { MemberId, PieceId, Uuid } from "../ids.ts";
import type { Assignment, Condition, PieceMoved, Purpose } from "../pieces/piece-entries.ts";
import type { PieceState } from "../pieces/piece-state.ts";
import type { Decided, Refusal } from "../refusal.ts";
import type { NewEntry } from "../subjects.ts";
import { type Holder, isSameHolder } from "./holder.ts";
import { refuseIssue } from "./issue-check.ts";
import { backBy } from "./late-record.ts";

/** Moves pieces to one holder as one act. Layers fitted in a moved shell go along without being named. */
export interface MovePieces {
  readonly pieces: readonly Handled[];
  readonly to: Holder;
  readonly purpose: Purpose;
  readonly soiled?: boolean;
  readonly wet?: true;
  readonly pockets?: "checked";
  readonly condition?: Condition;
  readonly releasedBy?: Uuid;
  readonly receivedBy?: Uuid;
  readonly fitSeenBy?: Uuid;
  readonly document?: string;
  /** At issue: the name of the member's set that the pieces belong to from now on. */
  readonly set?: string;
  /** Recorded late: they came back before they are next on record. When is not known, so the way back is presumed. */
  readonly thereAndBack?: boolean;
}

interface Going {
  readonly state: PieceState;
  readonly evidence: Evidence;
  readonly within?: PieceId;
}

/**
 * Decides a move. Refuses what was not registered, retired, changed since the screen showed it, or is a layer inside a
 * shell that stays behind; an issue is refused by everything that the check of the whole set finds. Holds and soil stop
 * an issue only: where a piece is may always be recorded. A piece that is there already is recorded as seen there.
 * The holder that it comes from is the recorded one at that moment, so that a late record slots in where it belongs;
 * there and back writes the way back too, for each that is on record elsewhere later.
 */
export function movePieces(bench: BenchState, command: MovePieces): Decided<readonly NewEntry[]> {
  const { known, refusals: unknown } = handledStates(bench, command.pieces);
  const refusals: Refusal[] = [...unknown];
  const going = new Map<PieceId, Going>();
  for (const { state, handled } of known) {
    refusals.push(...refuseOne(bench, state, handled, command));
    going.set(state.id, { state, evidence: handled.evidence });
  }
  for (const { state } of known) {
    for (const layer of layersIn(bench, state.id)) {
      const seen = going.get(layer.id)?.evidence ?? "with its set";
      going.set(layer.id, { state: layer, evidence: seen, within: state.id });
    }
  }
  refusals.push(...leftInside(bench, going));
  const issue =
    command.purpose === "issue"
      ? refuseIssue(
          bench,
          [...going.values()].map(({ state }) => state),
        )
      : undefined;
  refusals.push(...(issue?.refusals ?? []));
  if (refusals.length > 0) return { refusals };
  const out = [...going.values()].map((one) => moved(bench, one, command, issue?.notes ?? []));
  const back = command.thereAndBack ? waysBack(bench, going, command) : [];
  return { entries: [...out, ...back] };
}

function refuseOne(bench: BenchState, state: PieceState, handled: Handled, command: MovePieces): Refusal[] {
  const refusals: Refusal[] = [];
  const was = handled.reliedOn?.holder;
  if (was && !isSameHolder(was, state.holder)) {
    refusals.push({ code: "changed", subject: state.id, what: "holder", was, is: state.holder });
  }
  if (state.retiredAt !== undefined && state.retiredAt <= bench.at) {
    refusals.push({ code: "retired", subject: state.id, at: state.retiredAt });
  }
  if (command.purpose === "issue" && isSameHolder(holderAt(state, bench.at), command.to)) {
    refusals.push({ code: "already-there", subject: state.id, holder: command.to });
  }
  return refusals;
}

/** Layers of shells that do not go along. */
function leftInside(bench: BenchState, going: ReadonlyMap<PieceId, Going>): Refusal[] {
  return [...going.values()].flatMap(({ state }) => {
    const fitting = fittingAt(state, bench.at);
    if (!fitting || going.has(fitting.shell)) return [];
    return [{ code: "left-inside" as const, subject: state.id, shell: fitting.shell }];
  });
}

function moved(bench: BenchState, going: Going, command: MovePieces, notes: readonly string[]): NewEntry {
  const { state, evidence, within } = going;
  const { at } = bench;
  const from = holderAt(state, at);
  const tellsMore = command.soiled || command.wet || command.pockets !== undefined;
  if (isSameHolder(from, command.to) && !tellsMore) {
    return onPiece(state.id, { kind: "PieceFound", at, evidence, holder: command.to });
  }
  const entry: PieceMoved = {
    kind: "PieceMoved",
    at,
    evidence,
    from,
    to: command.to,
    purpose: command.purpose,
    releasedBy: command.releasedBy ?? bench.by,
    ...receiver(command),
    ...(within ? { within } : {}),
    ...(command.soiled === undefined ? {} : { soiled: command.soiled }),
    ...(command.wet ? { wet: true } : {}),
    ...(command.pockets ? { pockets: command.pockets } : {}),
    ...(command.condition ? { condition: command.condition } : {}),
    ...(command.fitSeenBy ? { fitSeenBy: command.fitSeenBy } : {}),
    ...(command.document ? { document: command.document } : {}),
    ...assignment(state, command),
    ...(notes.length > 0 ? { despite: notes } : {}),
  };
  return onPiece(state.id, entry);
}

/** What a way out is on the way back; what is not named here has the same purpose both ways. */
const PURPOSE_BACK: Partial<Record<Purpose, Purpose>> = { issue: "turn in", "to provider": "from provider" };

/** A garment comes back as it went, all of it at once. */
function waysBack(
  { at }: BenchState,
  going: ReadonlyMap<PieceId, Going>,
  command: MovePieces,
): readonly NewEntry[] {
  const all = [...going.values()];
  return all.flatMap(({ state, within }) => {
    const to = holderAt(state, at);
    const root = within ?? state.id;
    const together = all.filter((one) => (one.within ?? one.state.id) === root).map((one) => one.state);
    const by = backBy(together, at);
    if (by === undefined || isSameHolder(to, command.to)) return [];
    const fact = { kind: "PieceMoved" as const, at: by, evidence: "presumed" as const };
    const purpose = PURPOSE_BACK[command.purpose] ?? command.purpose;
    return [onPiece(state.id, { ...fact, from: command.to, to, purpose, ...(within ? { within } : {}) })];
  });
}

function receiver(command: MovePieces): { receivedBy?: Uuid } {
  if (command.receivedBy) return { receivedBy: command.receivedBy };
  return command.purpose === "issue" && command.to.kind === "member" ? { receivedBy: command.to.id } : {};
}

/** A piece that belongs to nobody belongs to the member that it is first issued to; a named set says so anew. */
function assignment(state: PieceState, command: MovePieces): { assignment?: Assignment } {
  if (command.purpose !== "issue" || command.to.kind !== "member") return {};
  const member: MemberId = command.to.id;
  if (command.set) return { assignment: { member, set: command.set } };
  return state.assignment ? {} : { assignment: { member, set: "first set" } };
}
