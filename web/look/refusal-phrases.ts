/**
 * Refusals in words: what, why, next, all reasons at once. The facts come as the rules give them; a speaker puts names
 * to the ids. Two files say them: pieces and their layers here, tags, people and the record in record-refusal-phrases.ts.
 */
import { type LabelReasonFacts, nextForReasons, sayLabelReason } from "./reason-phrases.ts";
import { type RecordRefusal, sayRecordRefusal } from "./record-refusal-phrases.ts";
import type { HolderFacts, Speaker, SpokenReason } from "./speaker.ts";
import type { VerdictName } from "./verdict-names.ts";
import { countOf, numberWord, sentence, type Words } from "./words.ts";

export type PieceRefusal =
  | { readonly code: "retired"; readonly subject: string; readonly at: number }
  | {
      readonly code: "held";
      readonly subject: string;
      readonly hold: string;
      readonly since: number;
      readonly by: string;
    }
  | { readonly code: "soiled"; readonly subject: string }
  | { readonly code: "label-not-read"; readonly subject: string }
  | { readonly code: "fitted-elsewhere"; readonly subject: string; readonly shell: string }
  | { readonly code: "left-inside"; readonly subject: string; readonly shell: string }
  | { readonly code: "not-fitted-there"; readonly subject: string; readonly shell: string }
  | {
      readonly code: "place-in-shell-taken";
      readonly subject: string;
      readonly shell: string;
      readonly by: string;
    }
  | { readonly code: "not-a-shell"; readonly subject: string; readonly kind: string }
  | { readonly code: "not-a-layer"; readonly subject: string; readonly kind: string }
  | {
      readonly code: "labels";
      readonly subject: string;
      readonly shell: string;
      readonly verdict: VerdictName;
      readonly reasons: readonly LabelReasonFacts[];
    }
  | { readonly code: "layer-missing"; readonly subject: string; readonly layerKind: string }
  | { readonly code: "already-there"; readonly subject: string; readonly holder: HolderFacts };

export type RefusalFacts = PieceRefusal | RecordRefusal;

/** Says the head of a list of reasons: "Not issued. Two reasons." */
export function refusalHead(notDone: string, count: number): string {
  return `${notDone} ${sentence(numberWord(count))} ${count === 1 ? "reason" : "reasons"}.`;
}

/** Says what a confirm that cannot be pressed says: "Issue: 2 reasons". */
export function blockedConfirm(verb: string, count: number): string {
  return `${verb}: ${countOf(count, "reason", "reasons")}`;
}

/** Says a whole refusal in one text, for a live region. */
export function spokenRefusal(head: string, reasons: readonly SpokenReason[], words: Words): string {
  const said = reasons.map((reason) =>
    [reason.what, reason.why, `${words.next} ${reason.next}`].filter(Boolean).join(" "),
  );
  return [head, ...said].join(" ");
}

/** Says one refusal: what, why, next. */
export function sayRefusal(refusal: RefusalFacts, speaker: Speaker): SpokenReason {
  switch (refusal.code) {
    case "held":
      return sayHeld(refusal, speaker);
    case "labels":
      return sayLabels(refusal, speaker);
    case "retired":
      return stop(
        `${speaker.piece(refusal.subject)} is retired.`,
        `Since ${speaker.when(refusal.at)}.`,
        "scan another piece.",
      );
    case "soiled":
      return stop(
        `${speaker.piece(refusal.subject)} awaits wash.`,
        "It was turned in soiled and no wash is recorded since.",
        "put it with the wash, or scan another.",
      );
    case "label-not-read":
      return {
        mark: "not-read",
        what: `The label of ${speaker.piece(refusal.subject)} is not yet read.`,
        next: "read the label and type it in.",
      };
    case "layer-missing":
      return stop(
        `${speaker.piece(refusal.subject)} has no ${speaker.kind(refusal.layerKind)}.`,
        undefined,
        "scan one, or clear the tray.",
      );
    default:
      return isPieceRefusal(refusal) ? sayPlace(refusal, speaker) : sayRecordRefusal(refusal, speaker);
  }
}

/** Says what a hold is for: "maker’s notice", "found fitted wrong". */
export function holdWord(hold: string): string {
  if (hold === "makers notice") return "maker’s notice";
  if (hold === "differs") return "came in with a layer that differs";
  if (hold === "identify") return "not identified";
  return hold;
}

function sayHeld(refusal: Extract<PieceRefusal, { code: "held" }>, speaker: Speaker): SpokenReason {
  return {
    mark: "hold",
    what: `${speaker.piece(refusal.subject)} is on hold: ${holdWord(refusal.hold)}.`,
    why: `${speaker.person(refusal.by)} placed it, ${speaker.when(refusal.since)}. ${sentence(speaker.lifts(refusal.hold))} lifts it.`,
    next: "leave it where it is, or scan another.",
  };
}

function sayLabels(refusal: Extract<PieceRefusal, { code: "labels" }>, speaker: Speaker): SpokenReason {
  const layer = speaker.piece(refusal.subject);
  const why = refusal.reasons.map((reason) => sayLabelReason(reason, speaker.words)).join(" ");
  const next = nextForReasons(refusal.reasons);
  if (refusal.verdict === "differs")
    return { mark: "differs", what: `${layer} differs from its shell.`, why, next };
  if (refusal.verdict === "not-read")
    return { mark: "not-read", what: `${layer} is not yet compared.`, why, next };
  return { mark: "cannot-tell", what: `Cannot tell whether ${layer} belongs in its shell.`, why, next };
}

type PlaceRefusal = Exclude<
  PieceRefusal,
  { code: "held" | "labels" | "retired" | "soiled" | "label-not-read" | "layer-missing" }
>;

const PLACE_CODES: readonly string[] = [
  "fitted-elsewhere",
  "left-inside",
  "not-fitted-there",
  "place-in-shell-taken",
  "not-a-shell",
  "not-a-layer",
  "already-there",
] satisfies readonly PlaceRefusal["code"][];

function isPieceRefusal(refusal: PlaceRefusal | RecordRefusal): refusal is PlaceRefusal {
  return PLACE_CODES.includes(refusal.code);
}

function sayPlace(refusal: PlaceRefusal, speaker: Speaker): SpokenReason {
  const piece = speaker.piece(refusal.subject);
  switch (refusal.code) {
    case "fitted-elsewhere":
      return stop(
        `${piece} is installed in another shell.`,
        `It is recorded in ${speaker.piece(refusal.shell)}, ${speaker.where(refusal.shell)}.`,
        "separate it there first, or record it as found.",
      );
    case "left-inside":
      return stop(
        `${piece} stays inside.`,
        `It is installed in ${speaker.piece(refusal.shell)}, which is to move.`,
        "separate it, or scan it too.",
      );
    case "not-fitted-there":
      return stop(`${piece} is not installed in ${speaker.piece(refusal.shell)}.`, undefined, "look it up.");
    case "place-in-shell-taken":
      return stop(
        `${speaker.piece(refusal.shell)} holds another already.`,
        `${speaker.piece(refusal.by)} is installed in it.`,
        "separate that one first.",
      );
    case "not-a-shell":
      return stop(`${piece} is no shell.`, undefined, "scan the shell first.");
    case "not-a-layer":
      return stop(`${piece} is no layer that goes in a shell.`, undefined, "scan a liner or a DRD.");
    default:
      return {
        mark: "none",
        what: `${piece} is there already.`,
        why: `It is recorded with ${speaker.holder(refusal.holder)}.`,
        next: "take it off the tray.",
      };
  }
}

function stop(what: string, why: string | undefined, next: string): SpokenReason {
  return { mark: "differs", what, why, next };
}
