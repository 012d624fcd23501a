import { onPiece } from "../bench/bench-state.ts";
import type { PieceId } from "../ids.ts";
import type { Decided, Refusal } from "../refusal.ts";
import type { NewEntry } from "../subjects.ts";
import { type PieceDraft, type RegisterState, registerPieces } from "./register-pieces.ts";

/** A piece as a file brings it in: with the maker's barcode or old number that opens it from then on. */
export interface ImportedPiece extends PieceDraft {
  readonly foreignCode?: string;
}

/** All accepted rows of one file, registered as one act. `file` is the SHA-256 of its bytes in hex. */
export interface ImportPieces {
  readonly file: string;
  readonly pieces: readonly ImportedPiece[];
}

export interface ImportState extends RegisterState {
  /** Pieces that foreign codes are bound to, by the code as it was scanned. */
  readonly codes: ReadonlyMap<string, PieceId>;
}

/**
 * Decides the registration of all rows of a file with their foreign codes, all or none. Everything is evidence
 * "imported": a list's word, which registers a piece and permits nothing. Refuses what `registerPieces` refuses, and a
 * code that another piece has, in the register or among these.
 */
export function importPieces(state: ImportState, command: ImportPieces): Decided<readonly NewEntry[]> {
  const pieces = command.pieces.map(({ foreignCode: _, ...draft }) => draft);
  const registered = registerPieces(state, { pieces, evidence: "imported" });
  const codes = new Map(state.codes);
  const refusals: Refusal[] = "refusals" in registered ? [...registered.refusals] : [];
  for (const { id, foreignCode } of command.pieces) {
    if (foreignCode === undefined) continue;
    const by = codes.get(foreignCode);
    if (by) refusals.push({ code: "code-bound", text: foreignCode, by });
    codes.set(foreignCode, id);
  }
  if (refusals.length > 0 || "refusals" in registered) return { refusals };
  const { at } = state;
  return {
    entries: registered.entries.flatMap((entry, index): NewEntry[] => {
      const { id, foreignCode: code } = command.pieces[index] ?? {};
      if (id === undefined || code === undefined) return [entry];
      return [entry, onPiece(id, { kind: "ForeignCodeBound", at, evidence: "imported", code })];
    }),
  };
}
