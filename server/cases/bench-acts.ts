import type { BenchState } from "../domain/bench/bench-state.ts";
import { type Holder, holderId } from "../domain/custody/holder.ts";
import { type MovePieces, movePieces } from "../domain/custody/move-pieces.ts";
import { type RecordFound, recordFound } from "../domain/custody/record-found.ts";
import { type InstallLayer, installLayer } from "../domain/fittings/install-layer.ts";
import { type SeparateLayers, separateLayers } from "../domain/fittings/separate-layers.ts";
import type { PieceId } from "../domain/ids.ts";
import { type LiftHold, liftHold, type PlaceHold, placeHold } from "../domain/pieces/hold-rules.ts";
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
import { takeBenchPieces } from "../store/take-bench.ts";
import type { Act } from "./run-act.ts";

/** Makes a use case of a decision at the bench. */
function benchAct<Command>(
  name: string,
  piecesOf: (command: Command) => readonly PieceId[],
  decide: (bench: BenchState, command: Command) => Decided<readonly NewEntry[]>,
  holdersOf: (command: Command) => readonly Holder[] = () => [],
): Act<Command> {
  return {
    name,
    rules: "by itself",
    async decide(scope, command, envelope) {
      const { at, by, role } = envelope;
      const taken = await takeBenchPieces(scope, piecesOf(command), at, holdersOf(command));
      const { pieces, book } = taken;
      const decided = decide({ pieces, book, at, by, role }, command);
      const strangers = taken.strangers.map((holder): Refusal => {
        return { code: "unknown-subject", subject: holderId(holder) ?? by, what: holder.kind };
      });
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
