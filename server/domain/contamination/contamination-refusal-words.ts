import { nameOf, type Phrase, type SubjectNames, sentence } from "../phrase.ts";
import type { Refusal } from "../refusal.ts";
import type { WhenWords } from "../when-words.ts";

type OfContamination = Extract<
  Refusal,
  { code: "ends-before-it-begins" | "unknown-contaminant" | "seen-at-event" | "not-a-bag" | "holds-nothing" }
>;

/** Says what stands against opening or correcting a contamination event. */
export function phraseContamination(refusal: OfContamination, names: SubjectNames, when: WhenWords): Phrase {
  switch (refusal.code) {
    case "ends-before-it-begins":
      return {
        what: "The event ends before it begins.",
        why: `From ${when(refusal.from)} to ${when(refusal.to)}.`,
        next: "set the later time after the earlier one",
      };
    case "not-a-bag":
      return {
        what: `${sentence(nameOf(names, refusal.subject))} is no bag.`,
        why: "Only an open place of the sort bag is packed and opened.",
        next: "scan the card of a bag",
      };
    case "holds-nothing":
      return {
        what: `Nothing is on record with ${nameOf(names, refusal.subject)}.`,
        why: "A bag is packed with what the member held.",
        next: "scan the pieces that are in the bag, and transfer them to it",
      };
    case "unknown-contaminant":
      return {
        what: `No kind of contaminant is called ${refusal.kind}.`,
        why: "The department has no rule of that name.",
        next: "choose a kind that is listed, or have the program manager add it under Contaminants",
      };
    case "seen-at-event":
      return {
        what: `${sentence(nameOf(names, refusal.subject))} stays on the list of ${nameOf(names, refusal.event)}.`,
        why: `It was not only presumed there: ${refusal.evidence}.`,
        next: "ask the program manager, who may take it off",
      };
  }
}
