import { nameOf, type Phrase, type SubjectNames, sentence } from "../phrase.ts";
import type { Refusal } from "../refusal.ts";
import type { WhenWords } from "../when-words.ts";

type Coded<Code extends Refusal["code"]> = Extract<Refusal, { code: Code }>;

/** Says why a layer does not go where it was to go, or a garment lacks one. Part of `phraseRefusal`. */
export function phraseFitting(
  refusal: Coded<
    | "fitted-elsewhere"
    | "left-inside"
    | "not-fitted-there"
    | "place-in-shell-taken"
    | "not-a-shell"
    | "not-a-layer"
    | "layer-missing"
  >,
  names: SubjectNames,
  when: WhenWords,
): Phrase {
  const it = sentence(nameOf(names, refusal.subject));
  switch (refusal.code) {
    case "fitted-elsewhere":
      return {
        what: `${it} is in another shell.`,
        why: `It is recorded in ${nameOf(names, refusal.shell)}.`,
        next: "separate it there first, or record it as found here",
      };
    case "left-inside":
      return {
        what: `${it} is still in its shell.`,
        why: `It is recorded in ${nameOf(names, refusal.shell)} and would stay behind there.`,
        next: "separate it first, or take the shell along",
      };
    case "not-fitted-there":
      return {
        what: `${it} is not in that shell.`,
        why: `It is not recorded in ${nameOf(names, refusal.shell)}.`,
        next: "look it up to see where it is",
      };
    case "place-in-shell-taken":
      return {
        what: `${it} has no room there.`,
        why: whoHadIt(refusal, names, when),
        next:
          refusal.to === undefined
            ? "separate that one first, or check the time"
            : "check the time, or correct what is on record",
      };
    case "not-a-shell":
      return {
        what: `${it} is no shell.`,
        why: `It is a ${sayKind(refusal.kind)}.`,
        next: "scan the shell first",
      };
    case "not-a-layer":
      return {
        what: `${it} goes in no shell.`,
        why: `It is a ${sayKind(refusal.kind)}.`,
        next: "scan a liner or a DRD",
      };
    case "layer-missing":
      return {
        what: `${it} is not complete.`,
        why: `It has no ${sayKind(refusal.layerKind)}.`,
        next: "scan one and install it, or clear the tray",
      };
  }
}

function whoHadIt(refusal: Coded<"place-in-shell-taken">, names: SubjectNames, when: WhenWords): string {
  const { by, shell, from, to } = refusal;
  const other = sentence(nameOf(names, by));
  if (from === undefined || to === undefined) return `${other} is already in ${nameOf(names, shell)}.`;
  return `${other} was in ${nameOf(names, shell)} from ${when(from)} to ${when(to)}.`;
}

/** Says a kind's code as words: `coat-liner` is a coat liner, `drd` a DRD. */
function sayKind(code: string): string {
  return code.replaceAll("-", " ").replace(/\bdrd\b/, "DRD");
}
