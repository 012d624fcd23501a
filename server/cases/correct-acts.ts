import { onPiece } from "../domain/bench/bench-state.ts";
import { onLoad } from "../domain/cleaning/run-load.ts";
import { takeBackLoadEntries } from "../domain/cleaning/take-back-load.ts";
import { type Holder, holderId } from "../domain/custody/holder.ts";
import type { LoadId, PieceId, Uuid } from "../domain/ids.ts";
import { type Correction, correctEntry } from "../domain/pieces/correct-entries.ts";
import type { Decided, Refusal } from "../domain/refusal.ts";
import type { NewEntry } from "../domain/subjects.ts";
import type { Instant } from "../domain/time.ts";
import { type ActScope, entriesOf, takePieces, takeSubjects } from "../store/act-scope.ts";
import { findAct, type WrittenAct } from "../store/append-act.ts";
import { unknownHolders } from "../store/known-holders.ts";
import type { Act, ActEnvelope } from "./run-act.ts";

/** Corrects one entry of a piece: another holder, another time, or not at all; with the reason. */
export interface CorrectMove {
  readonly piece: PieceId;
  readonly version: number;
  readonly to?: Holder;
  readonly at?: Instant;
  readonly void?: true;
  readonly note: string;
}

/** Takes back a whole act by correcting all its entries, which then stand for nothing. Both stay on record. */
export interface TakeBackAct {
  readonly act: Uuid;
  readonly note: string;
}

export const correctMoveAct: Act<CorrectMove> = {
  name: "correctMove",
  rules: "shared",
  async decide(scope, command, envelope) {
    const { note, ...correction } = command;
    const [stranger] = await unknownHolders(scope.tx, command.to ? [command.to] : []);
    if (stranger) {
      const subject = holderId(stranger) ?? envelope.by;
      return { refusals: [{ code: "unknown-subject", subject, what: stranger.kind }] };
    }
    return correctAll(scope, [correction], note, envelope);
  },
};

export const takeBackAct: Act<TakeBackAct> = {
  name: "takeBackAct",
  rules: "shared",
  async decide(scope, command, envelope) {
    const act = await findAct(scope.tx, command.act);
    if (!act) return { refusals: [{ code: "unknown-subject", subject: command.act, what: "act" }] };
    const others = act.entries.filter(({ subjectKind }) => subjectKind !== "piece" && subjectKind !== "load");
    if (others.length > 0) {
      return {
        refusals: others.map(
          ({ subject, version }): Refusal => ({
            code: "cannot-correct",
            subject,
            version,
            why: "other kind",
          }),
        ),
      };
    }
    const loads = await takeBackLoads(scope, act.entries, command.note, envelope.at);
    if ("refusals" in loads) return loads;
    const corrections = act.entries
      .filter(({ subjectKind }) => subjectKind === "piece")
      .map(({ subject, version }): Correction => ({ piece: subject as PieceId, version, void: true }));
    const corrected = await correctAll(scope, corrections, command.note, envelope);
    return "refusals" in corrected ? corrected : { entries: [...loads.entries, ...corrected.entries] };
  },
};

/** Takes back what an act wrote on loads; its pieces' entries are corrected beside it. */
async function takeBackLoads(
  scope: ActScope,
  written: WrittenAct["entries"],
  note: string,
  at: Instant,
): Promise<Decided<readonly NewEntry[]>> {
  const onLoads = written.filter(({ subjectKind }) => subjectKind === "load");
  const ids = onLoads.map(({ subject }) => subject as LoadId);
  await takeSubjects(scope, "load", ids);
  const refusals: Refusal[] = [];
  const entries: NewEntry[] = [];
  for (const id of new Set(ids)) {
    const versions = onLoads.filter(({ subject }) => subject === id).map(({ version }) => version);
    const taken = takeBackLoadEntries(id, entriesOf(scope, "load", id), versions, at);
    if ("refusals" in taken) refusals.push(...taken.refusals);
    else entries.push(...taken.entries.map((entry) => onLoad(id, entry, { note })));
  }
  return refusals.length > 0 ? { refusals } : { entries };
}

async function correctAll(
  scope: ActScope,
  corrections: readonly Correction[],
  note: string,
  envelope: ActEnvelope,
): Promise<{ entries: readonly NewEntry[] } | { refusals: readonly Refusal[] }> {
  await takePieces(
    scope,
    corrections.map(({ piece }) => piece),
  );
  const entries: NewEntry[] = [];
  const refusals: Refusal[] = [];
  for (const correction of corrections) {
    const made = correctEntry(entriesOf(scope, "piece", correction.piece), correction, envelope);
    if ("code" in made) refusals.push(made);
    else entries.push(onPiece(correction.piece, made, { note }));
  }
  return refusals.length > 0 ? { refusals } : { entries };
}
