import type { PieceBrief } from "../../../server/domain/piece-view.ts";
import type { Words } from "../../look/words.ts";

/** Says what stands on record against issuing a piece by itself, each in few words; nothing for one that is in order. */
export function stateWords(
  piece: Pick<PieceBrief, "holds" | "soiled" | "retiredAt" | "labelReading">,
  say: Words,
): readonly string[] {
  return [
    ...(piece.retiredAt ? [say.retired] : []),
    ...piece.holds.map(({ kind }) => `${say.onHold}: ${say.holdKind[kind].toLowerCase()}`),
    ...(piece.soiled ? [say.soiled] : []),
    ...(piece.labelReading === "read" ? [] : [say.labelIs(piece.labelReading)]),
  ];
}
