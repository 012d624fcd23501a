import type { PieceView } from "../../../server/domain/piece-view.ts";
import { verdictWord } from "../../look/verdict-phrases.ts";
import { kindWords, type Words } from "../../look/words.ts";
import { nameFor } from "./describe-piece.ts";

type NotReady = Extract<PieceView["ready"], { isReady: false }>["reasons"][number];
type Note = PieceView["ready"]["notes"][number];
/** The piece that is spoken of, with the names of others. */
type Spoken = Pick<PieceView, "id" | "names">;

/** Says why a piece is not ready to issue: each reason a short sentence. */
export function reasonsOf(reasons: readonly NotReady[], piece: Spoken, say: Words): readonly string[] {
  return reasons.map((reason) => {
    if (reason.code === "not-at-a-place") return say.notAtAPlace;
    return noteOf(reason, piece, say);
  });
}

/** Says what does not stop an issue and is worth knowing. */
export function notesOf(notes: readonly Note[], piece: Spoken, say: Words): readonly string[] {
  return notes.filter(({ code }) => code !== "outfit-lacks").map((note) => noteOf(note, piece, say));
}

function noteOf(reason: Note, piece: Spoken, say: Words): string {
  const who = (id: string) => (id === piece.id ? say.it : nameFor(piece.names, id));
  switch (reason.code) {
    case "on-hold":
      return `${say.cap(who(reason.piece))} is on hold: ${say.holdKind[reason.hold.kind].toLowerCase()}.`;
    case "retired":
      return `${say.cap(who(reason.piece))} is retired.`;
    case "soiled":
      return `${say.cap(who(reason.piece))} is soiled and awaits wash.`;
    case "layer-missing":
      return `${say.cap(who(reason.piece))} lacks its ${kindWords(reason.need.layerKind)}.`;
    case "fitted-layer-left-out":
    case "fitting-not-checked":
      return `${say.cap(who(reason.layer))} was not checked in its shell.`;
    case "fitted-elsewhere":
      return `${say.cap(who(reason.piece))} is in another shell.`;
    case "labels-differ":
    case "labels-cannot-tell":
    case "labels-accepted":
    case "labels-by-eye": {
      const verdict =
        reason.code === "labels-by-eye" ? say.comparedByEye : verdictWord(reason.check.verdict, say);
      return `${say.cap(who(reason.layer))} in ${who(reason.piece)}: ${verdict}.`;
    }
    case "labels-not-read":
      return `${say.cap(who(reason.layer ?? reason.piece))}: label not yet read.`;
    case "loose-layer":
      return say.looseLayer;
    case "outfit-lacks":
      return `No ${kindWords(reason.kind)} with it.`;
  }
}
