import { sayCustody } from "../custody/holder-words.ts";
import { nameOf, type Phrase, type SubjectNames, sentence } from "../phrase.ts";
import type { Refusal } from "../refusal.ts";
import type { WhenWords } from "../when-words.ts";

type Coded<Code extends Refusal["code"]> = Extract<Refusal, { code: Code }>;

/** Codes of what stands against a load. */
export const LOAD_CODES = [
  "washed-apart",
  "shells-and-liners",
  "not-so-cleaned",
  "load-too-large",
  "to-a-specialist",
  "shares-no-load",
  "over-limits",
  "no-programme",
  "machine-there",
  "machine-faulty",
  "load-running",
  "load-over",
  "ended-early",
  "length-unknown",
  "moved-between",
  "not-there",
] as const;
export type LoadRefusal = Coded<(typeof LOAD_CODES)[number]>;

/** Tells whether a refusal is about a load. */
export function isLoadRefusal(refusal: Refusal): refusal is LoadRefusal {
  return (LOAD_CODES as readonly string[]).includes(refusal.code);
}

/** Says why a load is not written. Part of `phraseRefusal`. */
export function phraseLoad(refusal: LoadRefusal, names: SubjectNames, when: WhenWords): Phrase {
  const it = sentence(nameOf(names, refusal.subject));
  switch (refusal.code) {
    case "washed-apart":
      return {
        what: `${it} is still in its shell.`,
        why: `It is recorded in ${nameOf(names, refusal.shell)}; layers are washed apart.`,
        next: "take it out, and scan it in the mode Separate",
      };
    case "shells-and-liners":
      return {
        what: `${it} is not started with shells and liners together.`,
        why: `Scanned: ${counted(refusal.shells, "shell")} and ${counted(refusal.liners, "liner")}. They are washed in loads of their own.`,
        next: "take the fewer off the tray, and wash them next",
      };
    case "not-so-cleaned":
      return { what: `${it} is not cleaned this way.`, ...NOT_SO[refusal.why] };
    case "load-too-large":
      return {
        what: `${it} takes ${refusal.most} at once.`,
        why: `Scanned: ${refusal.garments} shells or liners.`,
        next: `take ${refusal.garments - refusal.most} off the tray`,
      };
    case "to-a-specialist":
      return {
        what: `${it} goes to a specialist.`,
        why: `It met ${refusal.kinds.join(", ")} at ${nameOf(names, refusal.event)}; by the department's policy a specialist cleans it, or the policy does not say.`,
        next: "take it off the tray, and put it in isolation",
      };
    case "shares-no-load":
      return {
        what: `${it} shares no load with the rest.`,
        why: `It met ${refusal.kinds.join(", ")} at ${nameOf(names, refusal.event)}; the policy lets it be washed with gear of that event alone, or does not say.`,
        next: "take it off the tray, or all that was not there",
      };
    case "over-limits": {
      const over = refusal.over.map(({ what, is, limit }) => `${what} ${is}, limit ${limit}`).join("; ");
      return {
        what: `${it}: the programme ${refusal.programme} is over the department's limits.`,
        why: `${sentence(over)}.`,
        next: "choose another programme, or have the program manager start it with a reason",
      };
    }
    case "no-programme":
      return {
        what: `${it} has no such programme.`,
        why: "None is marked as its usual one, or it was given up.",
        next: "choose one on the page Machines",
      };
    case "machine-there":
      return {
        what: `${it} has a machine already.`,
        why: `${sentence(nameOf(names, refusal.by))} stands there; a card names one machine.`,
        next: "name a place of its own for this one, or close the other",
      };
    default:
      return phraseRun(refusal, it, names, when);
  }
}

function phraseRun(
  refusal: Exclude<
    LoadRefusal,
    Coded<
      | "washed-apart"
      | "shells-and-liners"
      | "not-so-cleaned"
      | "load-too-large"
      | "to-a-specialist"
      | "shares-no-load"
      | "over-limits"
      | "no-programme"
      | "machine-there"
    >
  >,
  it: string,
  names: SubjectNames,
  when: WhenWords,
): Phrase {
  switch (refusal.code) {
    case "machine-faulty":
      return {
        what: `${it} was found faulty.`,
        why: `Found so ${when(refusal.since)}; no check since found it in order.`,
        next: "use another machine, or record a check that finds it in order",
      };
    case "load-running":
      return {
        what: `${it} has a load in it.`,
        why: `Started ${when(refusal.since)}, and not ended on record.`,
        next: "scan its card with an empty tray to end that load",
      };
    case "load-over":
      return {
        what: `${it}: this load is over.`,
        why: `It ended ${when(refusal.at)}.`,
        next: "take back its end first",
      };
    case "ended-early":
      return {
        what: `${it}: the load is not through.`,
        why: `Started ${when(refusal.since)}; its programme takes ${refusal.minutes} minutes.`,
        next: "scan the card when it has ended, or record that the run was aborted",
      };
    case "length-unknown":
      return {
        what: `${it}: how long it ran is not known.`,
        why: "Its programme does not say.",
        next: "say how many minutes it ran",
      };
    case "moved-between":
      return {
        what: `${it} was not there all that time.`,
        why: `It changed hands ${when(refusal.at)}.`,
        next: "say a time that fits, or correct that move on its trail",
      };
    case "not-there":
      return {
        what: `${it} was not ${sayCustody(refusal.holder, names)} then.`,
        why: `It is recorded ${sayCustody(refusal.was, names)}, ${when(refusal.at)}.`,
        next: "compare the manifest with what was sent",
      };
  }
}

const NOT_SO: Readonly<Record<Coded<"not-so-cleaned">["why"], Omit<Phrase, "what">>> = {
  "by hand": {
    why: "The model table says by hand only.",
    next: "take it off the tray, and record its wash by hand",
  },
  "not at all": {
    why: "The model table says that it is not washed.",
    next: "take it off the tray, and ask its maker",
  },
  "proximity shell": {
    why: "Aluminised shells are neither washed nor dried by machine, unless the model table has the maker's word.",
    next: "take it off the tray",
  },
};

function counted(count: number, one: string): string {
  return `${count} ${one}${count === 1 ? "" : "s"}`;
}
