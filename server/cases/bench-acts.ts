import type { BenchState } from "../domain/bench/bench-state.ts";
import { type Holder, holderId } from "../domain/custody/holder.ts";
import { type MovePieces, movePieces } from "../domain/custody/move-pieces.ts";
import { type RecordFound, recordFound } from "../domain/custody/record-found.ts";
import { type InstallLayer, installLayer } from "../domain/fittings/install-layer.ts";
import { type SeparateLayers, separateLayers } from "../domain/fittings/separate-layers.ts";
import type { PieceId } from "../domain/ids.ts";
import { type LiftHold, liftHold, type PlaceHold, placeHold } from "../domain/pieces/hold-rules.ts";
import type { PieceState } from "../domain/pieces/piece-state.ts";
import {
  type AssignPieces,
  assignPieces,
  type CompareByEye,
  compareByEye,
  type RecordCleaning,
  type RetirePiece,
  recordCleaning,
  retirePieces,
} from "../domain/pieces/small-acts.ts";
import type { Decided, Refusal } from "../domain/refusal.ts";
import type { NewEntry } from "../domain/subjects.ts";
import { type ActScope, takePieces } from "../store/act-scope.ts";
import { unknownHolders } from "../store/known-holders.ts";
import { fittedWith, loadRulebook } from "../store/load-rulebook.ts";
import type { Act, ActEnvelope } from "./run-act.ts";

/** Locks the pieces with all that is fitted in or around them, and reads the rules that decide about them. */
export async function takeBench(
  scope: ActScope,
  pieces: readonly PieceId[],
  envelope: ActEnvelope,
): Promise<BenchState> {
  const around = await fittedWith(scope.tx, pieces, envelope.at);
  const wanted = [...new Set([...pieces, ...around])];
  const states = new Map(await takePieces(scope, wanted));
  // Between the look and the lock another bench may have put something in or taken it out: look once more.
  const late = (await fittedWith(scope.tx, pieces, envelope.at)).filter((id) => !states.has(id));
  for (const [id, state] of await takePieces(scope, late)) states.set(id, state);
  const named = [...states.values()];
  const keyOf = ({ kind, label }: PieceState) => ({
    kind,
    ...(label.maker ? { maker: label.maker } : {}),
    ...(label.modelName ? { name: label.modelName } : {}),
  });
  const ids = named.flatMap((state) => state.model ?? []);
  const { modelOf, ...book } = await loadRulebook(scope.tx, ids, named.map(keyOf));
  // A model described after its pieces came in counts for them from that moment on.
  for (const state of named) {
    const model = state.model ?? modelOf(keyOf(state));
    if (model && !state.model) states.set(state.id, { ...state, model });
  }
  const { at, by, role } = envelope;
  return { pieces: states, book, at, by, role };
}

/** Makes a use case of a decision at the bench. */
function benchAct<Command>(
  name: string,
  piecesOf: (command: Command) => readonly PieceId[],
  decide: (bench: BenchState, command: Command) => Decided<readonly NewEntry[]>,
  holdersOf: (command: Command) => readonly Holder[] = () => [],
): Act<Command> {
  return {
    name,
    rules: "shared",
    async decide(scope, command, envelope) {
      const unknown = await unknownHolders(
        scope.tx,
        holdersOf(command).flatMap((holder) => (holderId(holder) ? [holder] : [])),
      );
      const bench = await takeBench(scope, piecesOf(command), envelope);
      const decided = decide(bench, command);
      const strangers = unknown.map(
        (holder): Refusal => ({
          code: "unknown-subject",
          subject: holderId(holder) ?? envelope.by,
          what: holder.kind,
        }),
      );
      if (strangers.length === 0) return decided;
      return { refusals: [...strangers, ...("refusals" in decided ? decided.refusals : [])] };
    },
  };
}

const handled = (command: { readonly pieces: readonly { readonly piece: PieceId }[] }) =>
  command.pieces.map(({ piece }) => piece);

export const movePiecesAct = benchAct<MovePieces>("movePieces", handled, movePieces, ({ to }) => [to]);
export const recordFoundAct = benchAct<RecordFound>(
  "recordFound",
  (command) => [...handled(command), ...(command.fitted ?? []).flatMap(({ shell, layer }) => [shell, layer])],
  recordFound,
  ({ holder }) => [holder],
);
export const installLayerAct = benchAct<InstallLayer>(
  "installLayer",
  ({ shell, layer }) => [shell, layer],
  installLayer,
);
export const separateLayersAct = benchAct<SeparateLayers>("separateLayers", handled, separateLayers);
export const recordCleaningAct = benchAct<RecordCleaning>("recordCleaning", handled, recordCleaning);
export const compareByEyeAct = benchAct<CompareByEye>(
  "compareByEye",
  ({ shell, layer }) => [shell, layer],
  compareByEye,
);
export const assignPiecesAct = benchAct<AssignPieces>(
  "assignPieces",
  ({ pieces }) => pieces,
  assignPieces,
  ({ to }) => (to ? [{ kind: "member", id: to.member }] : []),
);
export const retirePiecesAct = benchAct<RetirePiece>("retirePieces", handled, retirePieces);
export const placeHoldAct = benchAct<PlaceHold>("placeHold", ({ pieces }) => pieces, placeHold);
export const liftHoldAct = benchAct<LiftHold>("liftHold", ({ piece }) => [piece], liftHold);
