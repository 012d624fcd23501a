import type { Uuid } from "../../../server/domain/ids.ts";
import type { SetShown } from "../../../server/domain/page-views.ts";
import type { Names } from "../../../server/domain/piece-view.ts";
import { countOf, kindWords, sentence, type Words } from "../../look/words.ts";
import { RECORD_WORDS } from "../../look/words-record.ts";
import { reasonsOf } from "../bench/ready-words.ts";
import { namePiece } from "./trail-words.ts";

const words = RECORD_WORDS;

/** Says of a set, a line each: how many pieces, which are elsewhere, what each garment lacks, why it is not ready. */
export function setWords(set: SetShown, member: Uuid, names: Names, say: Words): readonly string[] {
  const elsewhere = set.pieces.filter(({ holder }) => holder.id !== member).length;
  const { garments } = set;
  const lacking = garments
    .filter(({ missing }) => missing.length > 0)
    .map(({ piece, missing }) => words.garmentLacks(titleOf(piece, set, names), missing.map(kindWords)));
  const stopped = garments.flatMap(({ piece, ready }) => {
    // What a member has is not at a place; on the member's own page that is no news.
    const reasons = ready.isReady ? [] : ready.reasons.filter(isNews);
    if (reasons.length === 0) return [];
    const said = reasonsOf(reasons, { id: piece, names }, say).join(" ");
    return [words.notReadyBecause(titleOf(piece, set, names), said)];
  });
  return [
    `${countOf(set.pieces.length, "piece", "pieces")}.${elsewhere > 0 ? ` ${words.setElsewhere(elsewhere)}` : ""}`,
    ...(lacking.length > 0 ? lacking : [words.setComplete]),
    ...stopped,
    ...(set.outfitLacks.length > 0 ? [words.outfitLacks(set.outfitLacks.map(kindWords))] : []),
  ];
}

/** That a layer is missing is said on a line of its own. */
function isNews({ code }: { readonly code: string }): boolean {
  return code !== "not-at-a-place" && code !== "layer-missing";
}

function titleOf(id: string, set: SetShown, names: Names): string {
  const listed = set.pieces.find((piece) => piece.id === id);
  if (!listed) return names[id] ? sentence(namePiece(names[id])) : words.pieceNotNamed;
  return sentence(
    namePiece({ kind: "piece", name: listed.kind.name, ...(listed.number ? { detail: listed.number } : {}) }),
  );
}
