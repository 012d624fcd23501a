import { sayCustody } from "../custody/holder-words.ts";
import { nameOf, type SubjectNames } from "../phrase.ts";
import type { WhenWords } from "../when-words.ts";
import type { PieceFault } from "./piece-state.ts";

/** Says why an entry would contradict the others of its piece, and how it can be recorded all the same. */
export function phraseFault(
  fault: PieceFault,
  names: SubjectNames,
  when: WhenWords,
): { readonly why: string; readonly next: string } {
  switch (fault.code) {
    case "before-registered":
      return {
        why: `It would have happened before the piece was registered, ${when(fault.registeredAt)}.`,
        next: "check the time",
      };
    case "holder-differs":
      return {
        why: `At ${when(fault.at)} it was ${sayCustody(fault.recorded, names)}, not ${sayCustody(fault.stated, names)}.`,
        next: "record there and back, record it as found here, or correct the earlier entry",
      };
    case "after-retired":
      return {
        why: `It was retired ${when(fault.retiredAt)}.`,
        next: "correct the retirement, or check the time",
      };
    case "already-fitted":
      return {
        why: `At that time it was already in ${nameOf(names, fault.shell)}.`,
        next: "record the separation first, or check the time",
      };
    case "not-fitted-there":
      return {
        why: `At that time it was not in ${nameOf(names, fault.shell)}.`,
        next: "look the piece up and check the time",
      };
    case "never-registered":
      return { why: "The piece was never registered.", next: "register it first" };
  }
}
