import { type BenchState, type Handled, handledStates, layersIn, onPiece } from "../bench/bench-state.ts";
import { checkFit } from "../bench/rulebook.ts";
import { isWash } from "../cleaning/is-wash.ts";
import { evidenceOf, fittedTogether } from "../cleaning/load-check.ts";
import { cleaned } from "../contamination/clean-piece.ts";
import type { MemberId, PieceId } from "../ids.ts";
import type { Decided, Refusal } from "../refusal.ts";
import type { NewEntry } from "../subjects.ts";
import type { PieceCleaned } from "./piece-entries.ts";

export interface RecordCleaning {
  readonly pieces: readonly Handled[];
  readonly how: PieceCleaned["how"];
}

/**
 * Records that pieces were cleaned: each one that was handled, and no other. A shell with a layer
 * inside and a layer in its shell are refused, since layers are washed apart (facts.md 1.5); a rinse at the scene and a
 * disinfection are not. It says what was done, never that gear is clean.
 * A cleaning that the policy accepts for all that a piece met ends its contamination hold; else it says what is open.
 */
export function recordCleaning(bench: BenchState, command: RecordCleaning): Decided<readonly NewEntry[]> {
  const { known, refusals: unknown } = handledStates(bench, command.pieces);
  const states = known.map(({ state }) => state);
  const isApart = isWash(command.how) || command.how === "sanitisation";
  // What happened in spite of a hold is written down by whoever can lift it.
  const evidence = bench.role === "program manager" ? [] : states.flatMap((state) => evidenceOf(state));
  const refusals = [...unknown, ...evidence, ...(isApart ? fittedTogether(bench, states) : [])];
  if (refusals.length > 0) return { refusals };
  return {
    entries: known.flatMap(({ state, handled }) => {
      const { at, book } = bench;
      return cleaned(state, { kind: "PieceCleaned", at, evidence: handled.evidence, how: command.how }, book);
    }),
  };
}

export interface CompareByEye {
  readonly shell: PieceId;
  readonly layer: PieceId;
}

/**
 * Records that an inspector read both labels side by side and found them to name the same garment. It settles what was
 * unread or untold, never a known difference: that is refused.
 */
export function compareByEye(bench: BenchState, command: CompareByEye): Decided<readonly NewEntry[]> {
  const [shell, layer] = [bench.pieces.get(command.shell), bench.pieces.get(command.layer)];
  if (!shell || !layer) {
    const subject = shell ? command.layer : command.shell;
    return { refusals: [{ code: "unknown-subject", subject, what: "piece" }] };
  }
  const check = checkFit(shell, layer, bench.book);
  if (!check) return { refusals: [{ code: "not-a-layer", subject: layer.id, kind: layer.kind }] };
  if (check.verdict === "differs") {
    const { verdict, reasons } = check;
    return { refusals: [{ code: "labels", subject: layer.id, shell: shell.id, verdict, reasons }] };
  }
  const entry = { kind: "LabelsComparedByEye" as const, at: bench.at, evidence: "scanned" as const };
  return { entries: [onPiece(layer.id, { ...entry, shell: shell.id, by: bench.by })] };
}

export interface AssignPieces {
  readonly pieces: readonly PieceId[];
  readonly to: { readonly member: MemberId; readonly set: string } | null;
}

/** Says to whose use pieces belong, and in which set; null frees them. It moves nothing. */
export function assignPieces(bench: BenchState, command: AssignPieces): Decided<readonly NewEntry[]> {
  const missing = command.pieces.filter((piece) => !bench.pieces.has(piece));
  if (missing.length > 0) {
    return { refusals: missing.map((subject) => ({ code: "unknown-subject", subject, what: "piece" })) };
  }
  const entry = { kind: "PieceAssigned" as const, at: bench.at, evidence: "described" as const };
  return { entries: command.pieces.map((piece) => onPiece(piece, { ...entry, assignment: command.to })) };
}

export interface RetirePiece {
  readonly pieces: readonly Handled[];
  readonly method: string;
}

/** Retires pieces: from then on they are not moved, only found. Refuses what is retired already. */
export function retirePieces(bench: BenchState, command: RetirePiece): Decided<readonly NewEntry[]> {
  const { known, refusals: unknown } = handledStates(bench, command.pieces);
  const refusals: Refusal[] = [...unknown];
  for (const { state } of known) {
    if (state.retiredAt !== undefined)
      refusals.push({ code: "retired", subject: state.id, at: state.retiredAt });
    for (const layer of layersIn(bench, state.id)) {
      refusals.push({ code: "left-inside", subject: layer.id, shell: state.id });
    }
  }
  if (refusals.length > 0) return { refusals };
  return {
    entries: known.map(({ state, handled }) =>
      onPiece(state.id, {
        kind: "PieceRetired",
        at: bench.at,
        evidence: handled.evidence,
        method: command.method,
      }),
    ),
  };
}
