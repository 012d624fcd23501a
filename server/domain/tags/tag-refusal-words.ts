import type { Phrase, SubjectNames } from "../phrase.ts";
import { nameOf } from "../phrase.ts";
import type { TagRefusal } from "./tag-state.ts";

/** Says why a tag may not do what it was asked, with the next step. `number` stands as printed, in groups of four. */
export function phraseTagRefusal(refusal: TagRefusal, number: string, names: SubjectNames): Phrase {
  const tag = `Tag ${number}`;
  switch (refusal.code) {
    case "tag-not-printed":
      return {
        what: `${tag} was never printed.`,
        why: "Its number is only reserved.",
        next: "print it, then scan it",
      };
    case "tag-not-scanned-back":
      return {
        what: `${tag} was not scanned.`,
        why: "A tag counts only after it was scanned from the finished label; typing does not prove it.",
        next: "scan the tag on the piece",
      };
    case "tag-already-attached":
      return {
        what: `${tag} is on another piece.`,
        why: `It is attached to ${nameOf(names, refusal.piece)}.`,
        next: "take an unused tag",
      };
    case "tag-was-attached":
      return {
        what: `${tag} was attached before.`,
        why: `It names ${nameOf(names, refusal.piece)} for ever and is ${refusal.status} now.`,
        next: "take an unused tag",
      };
    case "tag-never-attached":
      return {
        what: `${tag} is on no piece.`,
        why: `It is ${refusal.status} and was never attached.`,
        next: "attach it first, or void it",
      };
    case "tag-is-void":
      return {
        what: `${tag} is void.`,
        why: `Reason: ${refusal.reason}.`,
        next: "take another tag and destroy this one",
      };
    case "tag-not-lost":
      return {
        what: `${tag} is not recorded as lost.`,
        why: `It is ${refusal.status}.`,
        next: "scan it to look it up",
      };
    case "tag-ended":
      return {
        what: `${tag} is ${refusal.status}.`,
        why: `It still opens ${nameOf(names, refusal.piece)}, but cannot go live this way.`,
        next: refusal.status === "lost" ? "record it as found by scanning it" : "take an unused tag",
      };
  }
}
