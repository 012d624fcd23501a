import { type BenchState, fittingAt, holderAt, layersIn, onPiece } from "../bench/bench-state.ts";
import { checkFit, isLayer, isShell } from "../bench/rulebook.ts";
import { isSameHolder } from "../custody/holder.ts";
import type { PieceId } from "../ids.ts";
import { allowsInstall } from "../label-check/label-verdict.ts";
import { type PieceState, standingHolds } from "../pieces/piece-state.ts";
import type { Decided, Refusal } from "../refusal.ts";
import type { NewEntry } from "../subjects.ts";

export interface InstallLayer {
  readonly shell: PieceId;
  readonly layer: PieceId;
  readonly evidence: "scanned" | "typed";
}

/**
 * Decides whether a layer goes into a shell. Only labels that match, or that a recorded word accepts, let it in; a
 * layer that is in another shell, a place in the shell that is taken, a retired piece and a hold for evidence refuse it.
 * A refused fitting changes nothing else: trying a wrong liner puts no hold on anything. A layer that lay elsewhere
 * is recorded as brought to where the shell is.
 */
export function installLayer(bench: BenchState, command: InstallLayer): Decided<readonly NewEntry[]> {
  const shell = bench.pieces.get(command.shell);
  const layer = bench.pieces.get(command.layer);
  const refusals: Refusal[] = [];
  if (!shell) refusals.push({ code: "unknown-subject", subject: command.shell, what: "piece" });
  if (!layer) refusals.push({ code: "unknown-subject", subject: command.layer, what: "piece" });
  if (!shell || !layer) return { refusals };
  refusals.push(...refusePieces(bench, shell, layer), ...refusePlaces(bench, shell, layer));
  const check = checkFit(shell, layer, bench.book);
  if (check && !allowsInstall(check.verdict)) {
    refusals.push({
      code: "labels",
      subject: layer.id,
      shell: shell.id,
      verdict: check.verdict,
      reasons: check.reasons,
    });
  }
  if (refusals.length > 0 || !check) return { refusals };
  const { at } = bench;
  const { evidence } = command;
  const acceptance = check.acceptedBy[0]?.id;
  const installed = onPiece(layer.id, {
    kind: "LayerInstalled",
    at,
    evidence,
    shell: shell.id,
    layerKind: layer.kind,
    verdict: check.verdict,
    ...(acceptance ? { acceptance } : {}),
  });
  return { entries: [...brought(bench, shell, layer, evidence), installed] };
}

function refusePieces({ book, at }: BenchState, shell: PieceState, layer: PieceState): Refusal[] {
  const refusals: Refusal[] = [];
  if (!isShell(shell, book)) refusals.push({ code: "not-a-shell", subject: shell.id, kind: shell.kind });
  if (!isLayer(layer, book)) refusals.push({ code: "not-a-layer", subject: layer.id, kind: layer.kind });
  for (const piece of [shell, layer]) {
    if (piece.retiredAt !== undefined && piece.retiredAt <= at) {
      refusals.push({ code: "retired", subject: piece.id, at: piece.retiredAt });
    }
    for (const hold of standingHolds(piece).filter(({ kind }) => kind === "evidence")) {
      const { kind, placedAt, placedBy, version } = hold;
      refusals.push({ code: "held", subject: piece.id, hold: kind, since: placedAt, by: placedBy, version });
    }
  }
  return refusals;
}

function refusePlaces(bench: BenchState, shell: PieceState, layer: PieceState): Refusal[] {
  const refusals: Refusal[] = [];
  const elsewhere = fittingAt(layer, bench.at);
  if (elsewhere) refusals.push({ code: "fitted-elsewhere", subject: layer.id, shell: elsewhere.shell });
  const taken = layersIn(bench, shell.id).find((other) => other.kind === layer.kind && other.id !== layer.id);
  if (taken)
    refusals.push({ code: "place-in-shell-taken", subject: layer.id, shell: shell.id, by: taken.id });
  return refusals;
}

function brought(
  bench: BenchState,
  shell: PieceState,
  layer: PieceState,
  evidence: InstallLayer["evidence"],
): NewEntry[] {
  const { at } = bench;
  const from = holderAt(layer, at);
  const to = holderAt(shell, at);
  if (isSameHolder(from, to)) return [];
  return [
    onPiece(layer.id, {
      kind: "PieceMoved",
      at,
      evidence,
      from,
      to,
      purpose: "transfer",
      within: shell.id,
      releasedBy: bench.by,
    }),
  ];
}
