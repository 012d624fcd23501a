import { type BenchState, onPiece } from "../bench/bench-state.ts";
import type { PieceId } from "../ids.ts";
import type { Decided } from "../refusal.ts";
import type { Role } from "../register/account.ts";
import type { NewEntry } from "../subjects.ts";
import type { HoldKind } from "./piece-entries.ts";
import { standingHolds } from "./piece-state.ts";

/** Who may lift which hold. Common practice; what a maker's notice asks for stays with the program manager. */
export const LIFTED_BY: Readonly<Record<HoldKind, readonly Role[]>> = {
  differs: ["inspector", "program manager"],
  finding: ["inspector", "program manager"],
  identify: ["technician", "inspector", "program manager"],
  lost: ["inspector", "program manager"],
  contamination: ["program manager"],
  "makers notice": ["program manager"],
  evidence: ["program manager"],
};

export interface PlaceHold {
  readonly pieces: readonly PieceId[];
  readonly hold: HoldKind;
  readonly note?: string;
}

/** Puts pieces on hold. A hold stops the issue of a piece until somebody who may lifts it. */
export function placeHold(bench: BenchState, command: PlaceHold): Decided<readonly NewEntry[]> {
  const missing = command.pieces.filter((piece) => !bench.pieces.has(piece));
  if (missing.length > 0) {
    return { refusals: missing.map((subject) => ({ code: "unknown-subject", subject, what: "piece" })) };
  }
  const { at, by } = bench;
  const entry = { kind: "HoldPlaced" as const, at, evidence: "described" as const, hold: command.hold, by };
  const texts = command.note ? { note: command.note } : undefined;
  return { entries: command.pieces.map((piece) => onPiece(piece, entry, texts)) };
}

export interface LiftHold {
  readonly piece: PieceId;
  /** The version of the entry that placed it. */
  readonly version: number;
  readonly note: string;
}

/** Lifts one hold, by a role that may, with the reason. Refuses a hold that does not stand. */
export function liftHold(bench: BenchState, command: LiftHold): Decided<readonly NewEntry[]> {
  const piece = bench.pieces.get(command.piece);
  if (!piece) return { refusals: [{ code: "unknown-subject", subject: command.piece, what: "piece" }] };
  const hold = standingHolds(piece).find(({ version }) => version === command.version);
  if (!hold) {
    return { refusals: [{ code: "hold-not-standing", subject: piece.id, version: command.version }] };
  }
  const may = LIFTED_BY[hold.kind];
  if (!may.includes(bench.role)) {
    const who = may.join(", ");
    return { refusals: [{ code: "not-yours-to-lift", subject: piece.id, hold: hold.kind, who }] };
  }
  const entry = {
    kind: "HoldLifted" as const,
    at: bench.at,
    evidence: "described" as const,
    hold: hold.version,
    because: "decided" as const,
  };
  return { entries: [onPiece(piece.id, entry, { note: command.note })] };
}
