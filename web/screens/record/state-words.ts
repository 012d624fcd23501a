import type { PieceListed } from "../../../server/domain/page-views.ts";
import type { Words } from "../../look/words.ts";

/** Says what stands on record against issuing a piece by itself, each in few words; nothing for one that is in order. */
export function stateWords(
  piece: Pick<PieceListed, "isHeld" | "soiled" | "retiredAt" | "labelReading">,
  say: Words,
): readonly string[] {
  return [
    ...(piece.retiredAt ? [say.retired] : []),
    ...(piece.isHeld ? [say.onHold] : []),
    ...(piece.soiled ? [say.soiled] : []),
    ...(piece.labelReading === "read" ? [] : [say.labelIs(piece.labelReading)]),
  ];
}
