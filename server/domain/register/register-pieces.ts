import { onPiece } from "../bench/bench-state.ts";
import type { Holder } from "../custody/holder.ts";
import type { Evidence } from "../evidence.ts";
import type { ModelId, PieceId } from "../ids.ts";
import type { LabelReading, MakersLabel } from "../pieces/label.ts";
import type { Assignment, PieceDescribed, PieceFile } from "../pieces/piece-entries.ts";
import type { PieceState } from "../pieces/piece-state.ts";
import type { Decided, Refusal } from "../refusal.ts";
import type { NewEntry } from "../subjects.ts";
import type { Instant } from "../time.ts";
import type { KindFacts } from "./kind.ts";

/** A piece on its way into the register. The id is drawn by whoever sends it, so that a repetition is the same piece. */
export interface PieceDraft {
  readonly id: PieceId;
  readonly kind: string;
  readonly label: MakersLabel;
  readonly reading: LabelReading;
  readonly file: PieceFile;
  readonly holder: Holder;
  readonly model?: ModelId;
  readonly assignment?: Assignment;
  readonly note?: string;
}

export interface RegisterPieces {
  readonly pieces: readonly PieceDraft[];
  readonly evidence: Evidence;
}

/** What is known of the register when new pieces come in. */
export interface RegisterState {
  readonly kinds: ReadonlyMap<string, KindFacts>;
  /** Pieces that carry a serial already, by `serialOf`. */
  readonly serials: ReadonlyMap<string, PieceId>;
  readonly at: Instant;
}

/** Names the serial of a piece: maker, kind and serial, folded to lower case. A lot never names a piece. */
export function serialOf(kind: string, label: MakersLabel): string | undefined {
  if (!label.serial || !label.maker) return undefined;
  return [label.maker, kind, label.serial].map((part) => part.toLowerCase()).join("\u0000");
}

/**
 * Decides the registration of pieces, all or none. Refuses a kind that nobody described, and a serial that another
 * piece of the same maker and kind has, in the register or among these. Unknown stays unknown.
 */
export function registerPieces(
  register: RegisterState,
  command: RegisterPieces,
): Decided<readonly NewEntry[]> {
  const refusals: Refusal[] = [];
  const serials = new Map(register.serials);
  for (const { id, kind, label } of command.pieces) {
    if (!register.kinds.has(kind))
      refusals.push({ code: "unknown-subject", subject: id, what: `kind ${kind}` });
    const serial = serialOf(kind, label);
    const by = serial === undefined ? undefined : serials.get(serial);
    if (by) refusals.push({ code: "serial-taken", subject: id, by, serial: label.serial ?? "" });
    if (serial !== undefined) serials.set(serial, id);
  }
  if (refusals.length > 0) return { refusals };
  return { entries: command.pieces.map((draft) => registered(draft, command.evidence, register.at)) };
}

function registered(draft: PieceDraft, evidence: Evidence, at: Instant): NewEntry {
  const { id, kind, note, ...facts } = draft;
  const entry = { kind: "PieceRegistered" as const, at, evidence, pieceKind: kind, ...facts };
  return onPiece(id, entry, note ? { note } : undefined);
}

/** New or corrected words of a piece's label or file; `null` says that it is unknown after all. */
export interface DescribePiece {
  readonly piece: PieceId;
  readonly label: PieceDescribed["label"];
  readonly reading?: LabelReading;
  readonly file: PieceDescribed["file"];
  readonly note?: string;
  /** The version of the piece that the form was filled from: a later one means that somebody else changed it. */
  readonly reliedOn?: { readonly version: number };
}

/** Decides a description. Refuses a serial that another piece has, and a form filled from an older state. */
export function describePiece(
  state: PieceState | undefined,
  register: RegisterState,
  command: DescribePiece,
): Decided<readonly NewEntry[]> {
  if (!state) return { refusals: [{ code: "unknown-subject", subject: command.piece, what: "piece" }] };
  const refusals: Refusal[] = [];
  const was = command.reliedOn?.version;
  if (was !== undefined && was !== state.version) {
    const [before, now] = [String(was), String(state.version)];
    refusals.push({ code: "changed", subject: state.id, what: "version", was: before, is: now });
  }
  const label = { ...state.label, ...command.label } as MakersLabel;
  const serial = serialOf(state.kind, label);
  const by = serial === undefined ? undefined : register.serials.get(serial);
  if (by && by !== state.id) {
    refusals.push({ code: "serial-taken", subject: state.id, by, serial: label.serial ?? "" });
  }
  if (refusals.length > 0) return { refusals };
  const { label: changes, file, reading } = command;
  const entry: PieceDescribed = {
    kind: "PieceDescribed",
    at: register.at,
    evidence: "typed",
    label: changes,
    file,
    ...(reading ? { reading } : {}),
  };
  return { entries: [onPiece(state.id, entry, command.note ? { note: command.note } : undefined)] };
}
