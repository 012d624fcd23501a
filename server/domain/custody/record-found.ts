import {
  type BenchState,
  fittingAt,
  type Handled,
  handledStates,
  layersIn,
  onPiece,
} from "../bench/bench-state.ts";
import { checkFit } from "../bench/rulebook.ts";
import { separated } from "../fittings/separate-layers.ts";
import type { MemberId, PieceId } from "../ids.ts";
import { type PieceState, standingHolds } from "../pieces/piece-state.ts";
import type { Decided, Refusal } from "../refusal.ts";
import type { NewEntry } from "../subjects.ts";
import type { Holder } from "./holder.ts";

/** Where pieces were found, whatever a stop says: seen with, taken by, found fitted. */
export interface RecordFound {
  readonly pieces: readonly Handled[];
  readonly holder: Holder;
  readonly takenBy?: MemberId;
  /** Layers that were found in a shell. */
  readonly fitted?: readonly { readonly shell: PieceId; readonly layer: PieceId }[];
}

/**
 * Records where pieces were found. Never refused for policy: holds stay, and `despite` says that the piece is out of
 * service where it was found. Layers on record in a found shell are presumed to be in it still. A layer found
 * in a shell whose labels differ puts both on hold until they are separated; whatever else was on record in that
 * place is presumed separated. Refuses only pieces that are not registered.
 */
export function recordFound(bench: BenchState, command: RecordFound): Decided<readonly NewEntry[]> {
  const { known, refusals: unknown } = handledStates(bench, command.pieces);
  const refusals: Refusal[] = [...unknown];
  const entries = new Map<PieceId, NewEntry>();
  for (const { state, handled } of known)
    entries.set(state.id, found(bench, state, command, handled.evidence));
  const seen = new Set(entries.keys());
  for (const { state } of known) {
    for (const layer of layersIn(bench, state.id)) {
      if (!seen.has(layer.id)) entries.set(layer.id, found(bench, layer, command, "presumed"));
    }
  }
  const fitted: NewEntry[] = [];
  // A layer that is found in another shell leaves its old one by that: it is not separated as well.
  const seenElsewhere = new Set((command.fitted ?? []).map(({ layer }) => layer));
  for (const { shell, layer } of command.fitted ?? []) {
    const [outer, inner] = [bench.pieces.get(shell), bench.pieces.get(layer)];
    if (outer && inner) fitted.push(...foundFitted(bench, outer, inner, seenElsewhere));
    else refusals.push({ code: "unknown-subject", subject: outer ? layer : shell, what: "piece" });
  }
  return refusals.length > 0 ? { refusals } : { entries: [...entries.values(), ...fitted] };
}

function found(
  bench: BenchState,
  state: PieceState,
  command: RecordFound,
  evidence: Handled["evidence"] | "presumed",
): NewEntry {
  const stops = standingHolds(state).map((hold) => hold.kind as string);
  if (state.soiled) stops.push("soiled");
  if (state.retiredAt !== undefined && state.retiredAt <= bench.at) stops.push("retired");
  return onPiece(state.id, {
    kind: "PieceFound",
    at: bench.at,
    evidence,
    holder: command.holder,
    ...(command.takenBy ? { takenBy: command.takenBy } : {}),
    ...(stops.length > 0 ? { despite: [...new Set(stops)].sort() } : {}),
  });
}

function foundFitted(
  bench: BenchState,
  shell: PieceState,
  layer: PieceState,
  seenElsewhere: ReadonlySet<PieceId>,
): NewEntry[] {
  const { at, book } = bench;
  const check = checkFit(shell, layer, book);
  if (!check || fittingAt(layer, at)?.shell === shell.id) return [];
  const other = layersIn(bench, shell.id).find(
    (one) => one.kind === layer.kind && one.id !== layer.id && !seenElsewhere.has(one.id),
  );
  const fact = { at, evidence: "scanned" as const };
  const isWrong = check.verdict === "differs";
  const hold = (piece: PieceId, withPiece: PieceId) =>
    onPiece(piece, { kind: "HoldPlaced", ...fact, hold: "differs", by: bench.by, with: withPiece });
  return [
    ...(other ? separated(bench, other, "presumed") : []),
    onPiece(layer.id, {
      kind: "LayerFoundFitted",
      ...fact,
      shell: shell.id,
      layerKind: layer.kind,
      verdict: check.verdict,
    }),
    ...(isWrong ? [hold(layer.id, shell.id), hold(shell.id, layer.id)] : []),
  ];
}
