import { type BenchState, fittingAt, type Handled, handledStates, onPiece } from "../bench/bench-state.ts";
import type { PieceId } from "../ids.ts";
import { type PieceState, standingHolds } from "../pieces/piece-state.ts";
import type { Decided, Refusal } from "../refusal.ts";
import type { NewEntry } from "../subjects.ts";
import type { Instant } from "../time.ts";

/** Takes layers out of the shells that they are in. A shell names all layers in it. */
export interface SeparateLayers {
  readonly pieces: readonly Handled[];
}

/**
 * Decides which layers come out. A hold that arose because the two differed ends by itself on both, and leaves the
 * record that they were worn together. Refuses layers that are in no shell, and pieces that are no layer.
 */
export function separateLayers(bench: BenchState, command: SeparateLayers): Decided<readonly NewEntry[]> {
  const { known, refusals: unknown } = handledStates(bench, command.pieces);
  const refusals: Refusal[] = [...unknown];
  const entries: NewEntry[] = [];
  const done = new Set<PieceId>();
  for (const { state, handled } of known) {
    const inside = [...bench.pieces.values()].filter(
      (piece) => fittingAt(piece, bench.at)?.shell === state.id,
    );
    const own = fittingAt(state, bench.at) ? [state] : [];
    if (inside.length === 0 && own.length === 0) {
      refusals.push({ code: "not-fitted-there", subject: state.id, shell: state.id });
    }
    for (const layer of [...own, ...inside]) {
      if (done.has(layer.id)) continue;
      done.add(layer.id);
      entries.push(...separated(bench, layer, handled.evidence));
    }
  }
  return refusals.length > 0 ? { refusals } : { entries };
}

/** Writes one separation with the ending of the holds that the pair had for differing. */
export function separated(
  bench: BenchState,
  layer: PieceState,
  evidence: Handled["evidence"] | "presumed",
): NewEntry[] {
  const { at } = bench;
  const fitting = fittingAt(layer, at);
  if (!fitting) return [];
  const shell = bench.pieces.get(fitting.shell);
  return [
    onPiece(layer.id, { kind: "LayerSeparated", at, evidence, shell: fitting.shell }),
    ...endHolds(layer, fitting.shell, at),
    ...(shell ? endHolds(shell, layer.id, at) : []),
  ];
}

function endHolds(piece: PieceState, other: PieceId, at: Instant): NewEntry[] {
  return standingHolds(piece)
    .filter((hold) => hold.kind === "differs" && hold.with === other)
    .map(({ version }) =>
      onPiece(piece.id, {
        kind: "HoldLifted",
        at,
        evidence: "described",
        hold: version,
        because: "separated",
      }),
    );
}
