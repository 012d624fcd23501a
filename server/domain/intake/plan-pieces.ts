import { WHEREABOUTS_UNKNOWN } from "../custody/holder.ts";
import type { PieceId } from "../ids.ts";
import type { ImportedPiece } from "../register/import-pieces.ts";
import type { PieceDraft } from "./read-piece-row.ts";

/** What a member's first set is called where the file gives no name; the same word as at a first issue. */
const USUAL_SET = "first set";

/**
 * Makes a row's draft into a piece to register. Its holder is the place that the row names, else the member, else its
 * whereabouts are unknown; a named member is also whose use it belongs to. The id is drawn by the caller.
 */
export function pieceToRegister(draft: PieceDraft, id: PieceId): ImportedPiece {
  const { kind, model, label, reading, file, place, member, set = USUAL_SET, foreignCode, note } = draft;
  return {
    ...{ id, kind, label, reading, file },
    holder: place
      ? { kind: "place", id: place }
      : member
        ? { kind: "member", id: member }
        : WHEREABOUTS_UNKNOWN,
    ...(model ? { model } : {}),
    ...(member ? { assignment: { member, set } } : {}),
    ...(foreignCode === undefined ? {} : { foreignCode }),
    ...(note === undefined ? {} : { note }),
  };
}
