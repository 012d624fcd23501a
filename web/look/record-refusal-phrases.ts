/** Refusals about the record itself: what changed meanwhile, late times, tags, names, roles. Plain data in, text out. */
import type { HolderFacts, Speaker, SpokenReason } from "./speaker.ts";
import { listOf } from "./words.ts";

export type RecordRefusal =
  | { readonly code: "unknown-subject"; readonly subject: string; readonly what: string }
  | {
      readonly code: "changed";
      readonly subject: string;
      readonly what: "holder";
      readonly was: HolderFacts;
      readonly is: HolderFacts;
    }
  | {
      readonly code: "changed";
      readonly subject: string;
      readonly what: "fitted in" | "version";
      readonly was: string | null;
      readonly is: string | null;
    }
  | { readonly code: "in-the-future"; readonly at: number; readonly now: number }
  | { readonly code: "does-not-fit-the-record"; readonly subject: string }
  | { readonly code: "serial-taken"; readonly subject: string; readonly by: string; readonly serial: string }
  | { readonly code: "name-taken"; readonly what: string; readonly name: string }
  | { readonly code: "code-bound"; readonly text: string; readonly by: string }
  | {
      readonly code: "tag";
      readonly subject: string;
      readonly number: string;
      readonly refusal: { readonly code: string; readonly piece?: string | undefined };
    }
  | {
      readonly code: "position-taken";
      readonly subject: string;
      readonly position: string;
      readonly by: string;
    }
  | {
      readonly code: "unknown-position";
      readonly subject: string;
      readonly position: string;
      readonly known: readonly string[];
    }
  | { readonly code: "hold-not-standing"; readonly subject: string }
  | {
      readonly code: "not-yours-to-lift";
      readonly subject: string;
      readonly hold: string;
      readonly who: string;
    }
  | { readonly code: "cannot-correct"; readonly subject: string; readonly why: string }
  | { readonly code: "repeated-id" }
  | { readonly code: "closed"; readonly subject: string; readonly what: string }
  | { readonly code: "role"; readonly needs: readonly string[] }
  | { readonly code: "nothing-to-do" };

/** Says one refusal about the record: what, why, next. */
export function sayRecordRefusal(refusal: RecordRefusal, speaker: Speaker): SpokenReason {
  switch (refusal.code) {
    case "changed":
      return sayChanged(refusal, speaker);
    case "tag":
      return sayTag(refusal, speaker);
    case "unknown-subject":
      return said(`This ${refusal.what} is not in the register.`, undefined, "look it up, then scan again.");
    case "in-the-future":
      return said(
        `The time given lies ahead: ${speaker.when(refusal.at)}.`,
        `It is ${speaker.when(refusal.now)} now.`,
        "set the time when it happened.",
      );
    case "does-not-fit-the-record":
      return said(
        `This does not fit the record of ${speaker.piece(refusal.subject)}.`,
        "Another entry of that time says otherwise.",
        "record there and back, found here, or correct the other entry.",
      );
    case "hold-not-standing":
      return said(
        `That hold of ${speaker.piece(refusal.subject)} no longer stands.`,
        undefined,
        "look the piece up.",
      );
    case "not-yours-to-lift":
      return said(
        `${speaker.piece(refusal.subject)} stays on hold.`,
        `Who may lift it: ${refusal.who}.`,
        "ask one of them.",
      );
    case "cannot-correct":
      return said(
        `This entry cannot be corrected: ${refusal.why}.`,
        undefined,
        "open the trail and choose the entry.",
      );
    default:
      return sayNames(refusal, speaker);
  }
}

function sayNames(
  refusal: Exclude<
    RecordRefusal,
    {
      code:
        | "changed"
        | "tag"
        | "unknown-subject"
        | "in-the-future"
        | "does-not-fit-the-record"
        | "hold-not-standing"
        | "not-yours-to-lift"
        | "cannot-correct";
    }
  >,
  speaker: Speaker,
): SpokenReason {
  switch (refusal.code) {
    case "serial-taken":
      return said(
        `Serial ${refusal.serial} is taken.`,
        `${speaker.piece(refusal.by)} has it: same maker, same kind.`,
        "compare the labels, then correct one of them.",
      );
    case "name-taken":
      return said(`The ${refusal.what} ${refusal.name} is there already.`, undefined, "choose another name.");
    case "code-bound":
      return said(
        `Code ${refusal.text} is bound already.`,
        `It opens ${speaker.piece(refusal.by)}.`,
        "look that piece up.",
      );
    case "position-taken":
      return said(
        `The ${refusal.position} position is taken.`,
        `Tag ${refusal.by} is there.`,
        "choose another position, or replace that tag.",
      );
    case "unknown-position":
      return said(
        `This kind has no ${refusal.position} position.`,
        `It has: ${listOf(refusal.known)}.`,
        "choose one of them.",
      );
    case "closed":
      return said(`This ${refusal.what} is closed.`, undefined, "choose another.");
    case "role":
      return said("This is not yours to do.", `Who may: ${listOf(refusal.needs, "or")}.`, "ask one of them.");
    case "repeated-id":
      return said("Another act has this number already.", undefined, "confirm again.");
    default:
      return said("There is nothing to write.", undefined, "scan a piece first.");
  }
}

function sayChanged(refusal: Extract<RecordRefusal, { code: "changed" }>, speaker: Speaker): SpokenReason {
  const piece = speaker.piece(refusal.subject);
  const next = "look it up, then confirm again.";
  if (refusal.what === "holder") {
    const why = `It was with ${speaker.holder(refusal.was)}; now it is with ${speaker.holder(refusal.is)}.`;
    return said(`Another bench moved ${piece}.`, why, next);
  }
  if (refusal.what === "version") return said(`Another bench wrote on ${piece} meanwhile.`, undefined, next);
  const shell = (id: string | null) => (id === null ? "in no shell" : `in ${speaker.piece(id)}`);
  return said(
    `Another bench changed what ${piece} is installed in.`,
    `It was ${shell(refusal.was)}; now it is ${shell(refusal.is)}.`,
    next,
  );
}

function sayTag(refusal: Extract<RecordRefusal, { code: "tag" }>, speaker: Speaker): SpokenReason {
  const { number } = refusal;
  const of = refusal.refusal.piece ? speaker.piece(refusal.refusal.piece) : "another piece";
  switch (refusal.refusal.code) {
    case "tag-not-printed":
      return said(`Tag ${number} was never printed.`, undefined, "print it first.");
    case "tag-not-scanned-back":
      return said(
        `Tag ${number} is not live yet.`,
        "Typing never proves a tag.",
        "scan it from the finished label.",
      );
    case "tag-already-attached":
      return said(`Tag ${number} is on ${of}.`, undefined, "take a new tag.");
    case "tag-is-void":
      return said(`Tag ${number} is void.`, undefined, "take a new tag.");
    case "tag-ended":
    case "tag-was-attached":
      return said(`Tag ${number} was on ${of}.`, "A number is never used again.", "take a new tag.");
    default:
      return said(`Tag ${number} is on no piece.`, undefined, "scan the tag that is on the piece.");
  }
}

function said(what: string, why: string | undefined, next: string): SpokenReason {
  return { mark: "differs", what, why, next };
}
