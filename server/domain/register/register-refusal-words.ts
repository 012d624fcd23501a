import { nameOf, type Phrase, type SubjectNames, sentence } from "../phrase.ts";
import type { Refusal } from "../refusal.ts";

type Coded<Code extends Refusal["code"]> = Extract<Refusal, { code: Code }>;

/** Says why a name, number, code or position is not free, or not there. Part of `phraseRefusal`. */
export function phraseRegister(
  refusal: Coded<
    "serial-taken" | "name-taken" | "code-bound" | "position-taken" | "unknown-position" | "unknown-subject"
  >,
  names: SubjectNames,
): Phrase {
  switch (refusal.code) {
    case "serial-taken":
      return {
        what: `Serial ${refusal.serial} is taken.`,
        why: `${sentence(nameOf(names, refusal.by))} of the same maker and kind has it.`,
        next: "read the label again; a lot number belongs in its own field",
      };
    case "name-taken":
      return {
        what: `The ${refusal.what === "member number" ? refusal.what : "name"} ${refusal.name} is taken.`,
        why: `Another ${refusal.what === "member number" ? "member" : refusal.what} has it.`,
        next: `use that one, or choose another ${refusal.what === "member number" ? "number" : "name"}`,
      };
    case "code-bound":
      return {
        what: `The code ${refusal.text} is bound.`,
        why: `It opens ${nameOf(names, refusal.by)}.`,
        next: "look that piece up, or bind another code",
      };
    case "position-taken":
      return {
        what: `${sentence(nameOf(names, refusal.subject))} has a tag there.`,
        why: `At ${refusal.position} it carries ${refusal.by.replace(/(.{4})(?=.)/g, "$1 ")}.`,
        next: "replace that tag, or choose another position",
      };
    case "unknown-position":
      return {
        what: `${sentence(nameOf(names, refusal.subject))} has no position ${refusal.position}.`,
        why: refusal.known.length > 0 ? `It has: ${refusal.known.join(", ")}.` : "Its kind carries no tags.",
        next: "choose one of its positions",
      };
    case "unknown-subject":
      return {
        what: `There is no such ${refusal.what}.`,
        why: "It is not on record.",
        next: "scan or look it up again",
      };
  }
}
