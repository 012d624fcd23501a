import { stayAt } from "../custody/fold-stays.ts";
import type { Holder } from "../custody/holder.ts";
import type { Fitting } from "../fittings/fold-fittings.ts";
import type { AccountId, PieceId } from "../ids.ts";
import type { PieceState } from "../pieces/piece-state.ts";
import type { Refusal } from "../refusal.ts";
import type { Role } from "../register/account.ts";
import type { NewEntry } from "../subjects.ts";
import type { Instant } from "../time.ts";
import type { Rulebook } from "./rulebook.ts";

/** What a decision at the bench looks at: the pieces under lock and the rules, at the moment it is about. */
export interface BenchState {
  readonly pieces: ReadonlyMap<PieceId, PieceState>;
  readonly book: Rulebook;
  readonly at: Instant;
  readonly by: AccountId;
  readonly role: Role;
}

/** A piece as it came before the scanner or the keyboard. */
export interface Handled {
  readonly piece: PieceId;
  /** With its set: taken over as a whole, such as a washed load by the dryer's card. */
  readonly evidence: "scanned" | "typed" | "with its set";
  /** What the screen showed when the person confirmed; an act is refused only if it changed since. */
  readonly reliedOn?: { readonly holder?: Holder };
}

/** Gives the fitting of a layer at a moment; at its ends the later state holds. */
export function fittingAt(layer: PieceState, at: Instant): Fitting | undefined {
  return layer.fittings.findLast(
    (fitting) => fitting.from <= at && (fitting.to === undefined || at < fitting.to),
  );
}

/** Gives who had a piece at a moment; for a moment before its registration the first holder. */
export function holderAt(state: PieceState, at: Instant): Holder {
  return stayAt(state.stays, at)?.holder ?? state.stays[0]?.holder ?? state.holder;
}

/** Lists the layers that were in a shell at a moment, of those under lock. */
export function layersIn(bench: BenchState, shell: PieceId): readonly PieceState[] {
  return [...bench.pieces.values()].filter((piece) => fittingAt(piece, bench.at)?.shell === shell);
}

/** Sorts out handled pieces that are not registered, each once however often it was scanned. */
export function handledStates(
  bench: BenchState,
  handled: readonly Handled[],
): {
  readonly known: readonly { state: PieceState; handled: Handled }[];
  readonly refusals: readonly Refusal[];
} {
  const known: { state: PieceState; handled: Handled }[] = [];
  const refusals: Refusal[] = [];
  for (const one of new Map(handled.map((each) => [each.piece, each])).values()) {
    const state = bench.pieces.get(one.piece);
    if (state) known.push({ state, handled: one });
    else refusals.push({ code: "unknown-subject", subject: one.piece, what: "piece" });
  }
  return { known, refusals };
}

/** Wraps an entry on a piece. */
export function onPiece(
  piece: PieceId,
  entry: Extract<NewEntry, { subjectKind: "piece" }>["entry"],
  texts?: Readonly<Record<string, string>>,
): NewEntry {
  return { subjectKind: "piece", subject: piece, entry, ...(texts ? { texts } : {}) };
}
