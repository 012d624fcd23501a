import { isLoadRefusal, phraseLoad } from "./cleaning/load-refusal-words.ts";
import { phraseContamination } from "./contamination/contamination-refusal-words.ts";
import { sayCustody } from "./custody/holder-words.ts";
import { phraseFitting } from "./fittings/fitting-refusal-words.ts";
import { sayLabelReason } from "./label-check/label-reason-words.ts";
import type { LabelVerdict } from "./label-check/label-verdict.ts";
import { nameOf, type Phrase, type SubjectNames, sentence } from "./phrase.ts";
import { phraseFault } from "./pieces/fault-words.ts";
import type { HoldKind } from "./pieces/piece-entries.ts";
import type { Refusal } from "./refusal.ts";
import { phraseRegister } from "./register/register-refusal-words.ts";
import { phraseTagRefusal } from "./tags/tag-refusal-words.ts";
import { phraseTrace } from "./tracing/trace-refusal-words.ts";
import { type WhenWords, whenInUtc } from "./when-words.ts";

export { type Phrase, type SubjectNames, sayPhrase } from "./phrase.ts";

/**
 * Says a refusal in words for a person: what is not done, why, and what next. `names` tells what each id is called;
 * `when` writes instants in the department's time zone. One wording for screens, problem details and command line.
 */
export function phraseRefusal(refusal: Refusal, names: SubjectNames, when: WhenWords = whenInUtc): Phrase {
  if (isLoadRefusal(refusal)) return phraseLoad(refusal, names, when);
  switch (refusal.code) {
    case "changed":
      return phraseChanged(refusal, names);
    case "held":
      return phraseHeld(refusal, names, when);
    case "labels":
      return phraseLabels(refusal, names);
    case "tag":
      return phraseTagRefusal(refusal.refusal, refusal.number.replace(/(.{4})(?=.)/g, "$1 "), names);
    case "does-not-fit-the-record": {
      const what = `${subject(refusal, names)} does not fit the record so.`;
      return { what, ...phraseFault(refusal.fault, names, when) };
    }
    case "fitted-elsewhere":
    case "left-inside":
    case "not-fitted-there":
    case "place-in-shell-taken":
    case "not-a-shell":
    case "not-a-layer":
    case "layer-missing":
      return phraseFitting(refusal, names, when);
    case "serial-taken":
    case "name-taken":
    case "code-bound":
    case "position-taken":
    case "unknown-position":
    case "unknown-subject":
      return phraseRegister(refusal, names);
    case "ends-before-it-begins":
    case "not-a-bag":
    case "holds-nothing":
    case "unknown-contaminant":
    case "seen-at-event":
      return phraseContamination(refusal, names, when);
    case "not-on-the-list":
    case "reason-needed":
    case "without-outcome":
    case "nothing-to-trace":
      return phraseTrace(refusal, names);
    case "hold-not-standing":
    case "not-yours-to-lift":
    case "cannot-correct":
    case "repeated-id":
    case "closed":
    case "not-empty":
    case "last-manager":
    case "role":
    case "nothing-to-do":
    case "in-the-future":
      return phraseAct(refusal, names, when);
    default:
      return phrasePiece(refusal, names, when);
  }
}

type Coded<Code extends Refusal["code"]> = Extract<Refusal, { code: Code }>;

function subject(refusal: { readonly subject: string }, names: SubjectNames): string {
  return sentence(nameOf(names, refusal.subject));
}

function phraseChanged(refusal: Coded<"changed">, names: SubjectNames): Phrase {
  const what = `${subject(refusal, names)} has changed meanwhile.`;
  const next = "look it up, then confirm again";
  if (refusal.what === "holder") {
    const [was, is] = [sayCustody(refusal.was, names), sayCustody(refusal.is, names)];
    return { what, why: `It was ${was}; now it is ${is}.`, next };
  }
  if (refusal.what === "version") return { what, why: "Something was written on it since you looked.", next };
  const fitted = (shell: string | null) => (shell === null ? "in no shell" : `in ${nameOf(names, shell)}`);
  return { what, why: `It was ${fitted(refusal.was)}; now it is ${fitted(refusal.is)}.`, next };
}

/** What a hold is called on screen. */
export const HOLD_WORDS: Readonly<Record<HoldKind, string>> = {
  differs: "labels differ",
  finding: "finding",
  contamination: "contamination",
  lost: "lost",
  "makers notice": "maker's notice",
  evidence: "evidence",
  identify: "to be identified",
};

function phraseHeld(refusal: Coded<"held">, names: SubjectNames, when: WhenWords): Phrase {
  return {
    what: `${subject(refusal, names)} is out of service: ${HOLD_WORDS[refusal.hold]}${ofEvent(refusal, names)}.`,
    why: `Since ${when(refusal.since)}, placed by ${nameOf(names, refusal.by)}.`,
    next:
      refusal.hold === "differs"
        ? "separate the two, which ends it"
        : "leave it out of use until the program manager lifts the hold",
  };
}

function ofEvent({ event }: Coded<"held">, names: SubjectNames): string {
  return event ? `, ${nameOf(names, event)}` : "";
}

const VERDICT_WORDS: Readonly<Record<LabelVerdict, string>> = {
  match: "Labels match",
  accepted: "Accepted",
  "not-read": "Not yet read",
  "cannot-tell": "Cannot tell",
  differs: "Differs",
};

function phraseLabels(refusal: Coded<"labels">, names: SubjectNames): Phrase {
  const [layer, shell] = [nameOf(names, refusal.subject), nameOf(names, refusal.shell)];
  const isDrd = /\bdrd\b/i.test(layer);
  return {
    what:
      refusal.verdict === "differs"
        ? `Differs. ${sentence(layer)} does not belong in ${shell}.`
        : `${VERDICT_WORDS[refusal.verdict]}. ${sentence(layer)} and ${shell} are not known to belong together.`,
    why: refusal.reasons.map((reason) => sayLabelReason(reason, isDrd ? "DRD" : "liner")).join(" "),
    next: labelsNext(refusal.verdict),
  };
}

function labelsNext(verdict: LabelVerdict): string {
  switch (verdict) {
    case "not-read":
      return "read both labels and type them in";
    case "cannot-tell":
      return "read the label and type it in, or record the maker's word";
    default:
      return "take it out and scan the one that belongs here, or record the maker's word";
  }
}

const CANNOT_CORRECT: Readonly<Record<Coded<"cannot-correct">["why"], string>> = {
  "no such entry": "There is no such entry.",
  "corrected already": "That entry was corrected before.",
  "other kind": "An entry of that kind is not corrected this way.",
};

function phraseAct(
  refusal: Coded<
    | "hold-not-standing"
    | "not-yours-to-lift"
    | "cannot-correct"
    | "repeated-id"
    | "closed"
    | "not-empty"
    | "last-manager"
    | "role"
    | "nothing-to-do"
    | "in-the-future"
  >,
  names: SubjectNames,
  when: WhenWords,
): Phrase {
  switch (refusal.code) {
    case "hold-not-standing":
      return {
        what: `${subject(refusal, names)} has no such hold.`,
        why: "It was lifted before, or never placed.",
        next: "look the piece up",
      };
    case "not-yours-to-lift":
      return {
        what: `The hold on ${nameOf(names, refusal.subject)} is not yours to lift.`,
        why: `Out of service: ${HOLD_WORDS[refusal.hold]}. Who lifts it: ${refusal.who}.`,
        next: `ask the ${refusal.who}`,
      };
    case "cannot-correct":
      return {
        what: `Entry ${refusal.version} of ${nameOf(names, refusal.subject)} is not corrected.`,
        why: CANNOT_CORRECT[refusal.why],
        next: "open the trail and choose the entry that stands",
      };
    case "repeated-id":
      return {
        what: "This act was sent before with another content.",
        why: "Its id is in the record already.",
        next: "look at what was written, then confirm anew",
      };
    case "closed":
      return {
        what: `${subject(refusal, names)} is closed.`,
        why: `This ${refusal.what} takes nothing any more.`,
        next: "choose another",
      };
    case "not-empty": {
      const pieces = refusal.pieces === 1 ? "1 piece" : `${refusal.pieces} pieces`;
      return {
        what: `${subject(refusal, names)} is not closed.`,
        why: `On record there: ${pieces}.`,
        next: "move them elsewhere, then close it",
      };
    }
    case "last-manager":
      return {
        what: `${subject(refusal, names)} stays program manager.`,
        why: "Nobody else could let people in.",
        next: "make somebody else program manager first",
      };
    case "role":
      return {
        what: "This is not for your role.",
        why: `It needs: ${refusal.needs.join(" or ")}.`,
        next: `ask the ${refusal.needs.join(" or ")}`,
      };
    case "nothing-to-do":
      return { what: "There is nothing to write.", why: "The record says so already.", next: "look it up" };
    case "in-the-future":
      return {
        what: "The time lies ahead.",
        why: `It says ${when(refusal.at)}; here it is ${when(refusal.now)}.`,
        next: "check the device's clock",
      };
  }
}

function phrasePiece(
  refusal: Coded<"retired" | "soiled" | "label-not-read" | "already-there">,
  names: SubjectNames,
  when: WhenWords,
): Phrase {
  const it = subject(refusal, names);
  switch (refusal.code) {
    case "retired":
      return { what: `${it} is retired.`, why: `Since ${when(refusal.at)}.`, next: "take it off the tray" };
    case "soiled":
      return {
        what: `${it} awaits wash.`,
        why: "It came in soiled.",
        next: "clean it and record the cleaning",
      };
    case "label-not-read":
      return {
        what: `${it}: label not yet read.`,
        why: "What its label says is not on record.",
        next: "read the label and type it in",
      };
    case "already-there":
      return {
        what: `${it} is there already.`,
        why: `It is recorded ${sayCustody(refusal.holder, names)}.`,
        next: "take it off the tray",
      };
  }
}
