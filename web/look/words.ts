/**
 * Every fixed word of the screens, in a US and an international set. Short main clauses, present tense; the piece is
 * the subject. Sentences about verdicts are built from these in verdict-phrases.ts.
 */
export type Region = "US" | "international";

import { countOf, kindWords, listOf, midSentence, numberWord, sentence } from "./say-lists.ts";
import { BENCH_WORDS } from "./words-bench.ts";
import { PIECE_WORDS } from "./words-piece.ts";
import { REASSEMBLE_WORDS } from "./words-reassemble.ts";

export { countOf, kindWords, listOf, midSentence, numberWord, sentence };

const US = { ...BENCH_WORDS, ...PIECE_WORDS, reassemble: REASSEMBLE_WORDS } as const;

/** The same keys whatever the region; texts and makers of texts are replaced one for one. */
export type Words = {
  readonly [K in keyof typeof US]: (typeof US)[K] extends string
    ? string
    : (typeof US)[K] extends readonly string[]
      ? readonly string[]
      : (typeof US)[K];
};

const ABROAD: readonly (readonly [RegExp, string])[] = [
  [/\bpants\b/g, "trousers"],
  [/\bPants\b/g, "Trousers"],
  [/\bprogram manager\b/g, "programme manager"],
  [/\bProgram manager\b/g, "Programme manager"],
];

/** Says every word, made sentence, list and table of a set in the words of a region: none can be forgotten. */
function setAbroad<Value>(value: Value): Value {
  if (typeof value === "string") return inRegion(value, "international") as Value;
  if (typeof value === "function") {
    const make = value as unknown as (...facts: unknown[]) => unknown;
    return ((...facts: unknown[]) => setAbroad(make(...facts))) as Value;
  }
  if (Array.isArray(value)) return value.map(setAbroad) as Value;
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, said]) => [key, setAbroad(said)])) as Value;
}

const SETS: Record<Region, Words> = { US, international: setAbroad<Words>(US) };

/** Gives the set of words of a region. */
export function words(region: Region): Words {
  return SETS[region];
}

/** Says a sentence that was built with US words in the words of a region, for names that come from the register. */
export function inRegion(text: string, region: Region): string {
  if (region === "US") return text;
  return ABROAD.reduce((said, [word, other]) => said.replace(word, other), text);
}
