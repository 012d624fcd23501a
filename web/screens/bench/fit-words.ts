import type { LabelCheck } from "../../../server/domain/label-check/label-verdict.ts";
import type { PieceView } from "../../../server/domain/piece-view.ts";
import { fieldLabel } from "../../look/verdict-phrases.ts";
import { listOf, midSentence, type Words } from "../../look/words.ts";

/** Says in one or two sentences what a comparison came to, and why. */
export function fitSays(check: LabelCheck, layer: PieceView, say: Words): readonly string[] {
  const name = midSentence(layer.kind.name.replace(/^\w+ (?=liner)/, ""));
  const fields = check.rows
    .filter(({ verdict }) => verdict === check.verdict)
    .map(({ field }) => fieldLabel(field, say).toLowerCase());
  const named = listOf(fields);
  const verb = fields.length === 1 ? "is" : "are";
  const cap = named.charAt(0).toUpperCase() + named.slice(1);
  switch (check.verdict) {
    case "match":
      return [check.comparedByEye ? say.matchByEye : say.matchSays];
    case "accepted": {
      const word = check.acceptedBy[0];
      return word ? [`${word.saidByName} accepts it: ${word.document}, ${word.saidOn}.`] : [];
    }
    case "differs":
      return [`This ${name} does not belong in this shell.`, `${cap} ${verb} not the same.`];
    case "cannot-tell":
      return [
        `Nothing on record tells whether this ${name} belongs here: ${named}.`,
        "It stops as a difference does.",
      ];
    case "not-read":
      return [
        "A label was not yet read.",
        "Read it and type it in, or let an inspector compare both by eye.",
      ];
  }
}
