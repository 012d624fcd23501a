import { nameOf, type Phrase, type SubjectNames, sentence } from "../phrase.ts";
import type { Refusal } from "../refusal.ts";

type OfTrace = Extract<
  Refusal,
  { code: "not-on-the-list" | "reason-needed" | "without-outcome" | "nothing-to-trace" }
>;

/** Says what stands against keeping, working or closing a trace. */
export function phraseTrace(refusal: OfTrace, names: SubjectNames): Phrase {
  switch (refusal.code) {
    case "not-on-the-list":
      return {
        what: `${sentence(nameOf(names, refusal.subject))} is not on the list of ${nameOf(names, refusal.trace)}.`,
        why: "The trace did not find that it was possibly reached.",
        next: "put it aside; trace anew if the record has changed since",
      };
    case "reason-needed":
      return {
        what: `No outcome "${refusal.outcome}" without a reason.`,
        why: "Whoever reads the list later must see why.",
        next: "write the reason, then confirm again",
      };
    case "without-outcome": {
      const { pieces } = refusal;
      return {
        what: `${sentence(nameOf(names, refusal.subject))} stays open.`,
        why:
          pieces === 1
            ? "One possible contact has no outcome."
            : `Of its possible contacts ${pieces} have no outcome.`,
        next: "scan what is left, or have the program manager record it as not found",
      };
    }
    case "nothing-to-trace":
      return {
        what: "There is nothing to trace.",
        why: "By the record no piece was there then.",
        next: "choose another start, or another time",
      };
  }
}
