import type { KindFacts } from "../register/kind.ts";
import { foldWords } from "./fold-cell.ts";

export type KindAnswer = { readonly kind: string } | { readonly mayBe: readonly string[] };

/** Words of one meaning on both sides of the ocean, folded. Common practice. */
const SAME_WORD: Readonly<Record<string, string>> = {
  trouser: "pants",
  trousers: "pants",
  pant: "pants",
  bottoms: "pants",
  jacket: "coat",
  tunic: "coat",
  coats: "coat",
  jackets: "coat",
  lining: "liner",
  liners: "liner",
  linings: "liner",
  shells: "shell",
  gloves: "glove",
  boots: "boot",
  hoods: "hood",
  helmets: "helmet",
  pairs: "pair",
  coveralls: "coverall",
  drds: "drd",
  suspender: "suspenders",
  braces: "suspenders",
  balaclava: "hood",
  footwear: "boot",
};
/** Words that every piece of turnout gear may have and that part no kind from another. */
const IDLE = new Set([
  "outer",
  "turnout",
  "bunker",
  "structural",
  "firefighting",
  "fire",
  "gear",
  "of",
  "the",
  "a",
  "for",
  "pair",
]);

/**
 * Makes a reader of kinds for a register: by code, by name, then by its words in any order, with US and international
 * words for the same thing. Answers one kind, or the names that it may be: none when nothing is like it. "Coat" alone
 * names a shell or a liner, so it is never guessed.
 */
export function kindReader(kinds: readonly KindFacts[]): (text: string) => KindAnswer {
  const known = new Map<string, KindAnswer>();
  const worded = kinds.map((kind) => ({ kind, words: wordsOf(kind.name), codeWords: wordsOf(kind.code) }));
  const read = (text: string): KindAnswer => {
    const folded = foldWords(text);
    const exact = kinds.find(({ code, name }) => foldWords(code) === folded || foldWords(name) === folded);
    if (exact) return { kind: exact.code };
    const asked = wordsOf(text);
    const same = worded.filter(({ words, codeWords }) => isSame(asked, words) || isSame(asked, codeWords));
    if (same.length === 1 && same[0]) return { kind: same[0].kind.code };
    const near = worded.filter(({ words }) => asked.size > 0 && [...asked].every((word) => words.has(word)));
    return { mayBe: (same.length > 1 ? same : near).map(({ kind }) => kind.name) };
  };
  return (text) => {
    const answer = known.get(text) ?? read(text);
    known.set(text, answer);
    return answer;
  };
}

function wordsOf(text: string): ReadonlySet<string> {
  const folded = foldWords(text).replace("drag rescue device", "drd");
  const words = folded
    .split(" ")
    .map((word) => (Object.hasOwn(SAME_WORD, word) ? (SAME_WORD[word] ?? word) : word));
  return new Set(words.filter((word) => word !== "" && !IDLE.has(word)));
}

function isSame(one: ReadonlySet<string>, other: ReadonlySet<string>): boolean {
  return one.size > 0 && one.size === other.size && [...one].every((word) => other.has(word));
}
