/** Numbers and lists as they are spoken. */

/** Says how many: "1 piece", "9 pieces". */
export function countOf(count: number, one: string, many: string): string {
  return `${count} ${count === 1 ? one : many}`;
}

const SMALL = ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"];

/** Says a number up to ten as a word, larger ones in numerals: "two", "14". */
export function numberWord(count: number): string {
  return SMALL[count] ?? String(count);
}

/** Begins a sentence: "labels match" becomes "Labels match". */
export function sentence(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** Joins names as they are spoken: "a", "a and b", "a, b and c". */
export function listOf(names: readonly string[], last = "and"): string {
  if (names.length < 2) return names[0] ?? "";
  return `${names.slice(0, -1).join(", ")} ${last} ${names.at(-1)}`;
}

/** Says the code of a kind as words within a sentence: `coat-liner` is a coat liner, `drd` a DRD. */
export function kindWords(code: string): string {
  return code.replaceAll("-", " ").replace(/\bdrd\b/, "DRD");
}

/** Begins a name as it stands within a sentence: "Coat liner" becomes "coat liner", "DRD" stays. */
export function midSentence(name: string): string {
  return /^[A-Z][a-z]/.test(name) ? `${name.charAt(0).toLowerCase()}${name.slice(1)}` : name;
}
