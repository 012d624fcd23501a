import type { Brand } from "../brand.ts";

/** A tag number: twelve symbols of TAG_ALPHABET, a letter first, whose two check symbols hold. */
export type TagNumber = Brand<string, "tag number">;

/** Picks a whole number from 0 to n − 1, each as likely as any other. The caller brings a strong source. */
export type PickBelow = (n: number) => number;

/**
 * The 23 symbols; a prime, so that check symbols work over GF(23). Left out: I L O U S B look like 1 1 0 V 5 8;
 * A Q W Z M Y move between keyboards; E makes a spreadsheet read a number, and without vowels there are no words.
 */
export const TAG_ALPHABET = "0123456789CDFGHJKNPRTVX";
export const TAG_LENGTH = 12;
/** Ten digits come first in the alphabet; a number never begins with one, so a spreadsheet keeps it as text. */
const DIGITS = 10;
const RADIX = TAG_ALPHABET.length;

const LOOKS_LIKE: Readonly<Record<string, string>> = { O: "0", I: "1", L: "1", S: "5", B: "8", U: "V" };
const SPOKEN: Readonly<Record<string, string>> = {
  C: "Charlie",
  D: "Delta",
  F: "Foxtrot",
  G: "Golf",
  H: "Hotel",
  J: "Juliett",
  K: "Kilo",
  N: "November",
  P: "Papa",
  R: "Romeo",
  T: "Tango",
  V: "Victor",
  X: "X-ray",
};

/** Folds what was typed or scanned: upper case, no blanks, no `-`, `.` or `_`, O→0, I L→1, S→5, B→8, U→V. */
export function foldTagText(text: string): string {
  return text
    .toUpperCase()
    .replace(/[\s\-._]/g, "")
    .replace(/[OILSBU]/g, (symbol) => LOOKS_LIKE[symbol] ?? symbol);
}

/** Takes a remainder modulo 23 that is never negative. */
export function modRadix(value: number): number {
  return ((value % RADIX) + RADIX) % RADIX;
}

/** Finds the inverse of a value 1 to 22 modulo 23, by Fermat's little theorem (a^21). */
export function inverse(value: number): number {
  let power = 1;
  for (let step = 0; step < RADIX - 2; step += 1) power = modRadix(power * value);
  return power;
}

/** Turns symbols into values 0 to 22; a symbol outside the alphabet becomes undefined. */
export function symbolValues(folded: string): (number | undefined)[] {
  return [...folded].map((symbol) => {
    const value = TAG_ALPHABET.indexOf(symbol);
    return value < 0 ? undefined : value;
  });
}

/**
 * Computes the two sums that are 0 for a number that holds: Σ i·c and Σ i²·c modulo 23, positions 1 to 12.
 * Any two positions are independent under these sums, so every one or two wrong symbols and every swap shows.
 */
export function checkSums(values: readonly (number | undefined)[]): { s1: number; s2: number } {
  let s1 = 0;
  let s2 = 0;
  values.forEach((value, index) => {
    const position = index + 1;
    s1 += position * (value ?? 0);
    s2 += position * position * (value ?? 0);
  });
  return { s1: modRadix(s1), s2: modRadix(s2) };
}

/**
 * Parses a tag number after folding. Returns undefined unless it is twelve symbols of the alphabet, begins with
 * a letter and both check sums are 0. It says that the number can be; only the register says that it is.
 */
export function parseTagNumber(text: string): TagNumber | undefined {
  const folded = foldTagText(text);
  return hasTagShape(folded) && isZero(checkSums(symbolValues(folded))) ? (folded as TagNumber) : undefined;
}

/** Tells whether folded text is twelve symbols of the alphabet with a letter first, check symbols aside. */
export function hasTagShape(folded: string): boolean {
  const values = symbolValues(folded);
  const [first] = values;
  return (
    values.length === TAG_LENGTH && first !== undefined && first >= DIGITS && !values.includes(undefined)
  );
}

function isZero(sums: { s1: number; s2: number }): boolean {
  return sums.s1 === 0 && sums.s2 === 0;
}

/** Adds the two check symbols to ten symbols of the alphabet, a letter first. Returns undefined otherwise. */
export function withCheckSymbols(ten: string): TagNumber | undefined {
  const values = symbolValues(ten);
  if (values.length !== TAG_LENGTH - 2) return undefined;
  const solved = solveTwo([...values, undefined, undefined]);
  return solved === undefined ? undefined : parseTagNumber(solved);
}

/**
 * Solves twelve values of which exactly two are undefined, so that both sums are 0: two equations, two unknowns,
 * always one answer. Returns the twelve symbols, or undefined when the count is another.
 */
export function solveTwo(values: readonly (number | undefined)[]): string | undefined {
  const holes = values.flatMap((value, index) => (value === undefined ? [index] : []));
  const [a, b] = holes;
  if (values.length !== TAG_LENGTH || holes.length !== 2 || a === undefined || b === undefined)
    return undefined;
  const { s1, s2 } = checkSums(values);
  const p = a + 1;
  const q = b + 1;
  // p·x + q·y = −s1 and p²·x + q²·y = −s2, so x = (s2 − q·s1) / (p·(q − p)).
  const x = modRadix((s2 - q * s1) * inverse(modRadix(p * (q - p))));
  const y = modRadix((s2 - p * s1) * inverse(modRadix(q * (p - q))));
  return values.map((value, index) => TAG_ALPHABET[value ?? (index === a ? x : y)] ?? "").join("");
}

/**
 * Draws a new number with the caller's randomness: 13 · 23⁹ are possible, so numbers of two departments meet by
 * chance about never. Throws when `pickBelow` answers a value outside 0 to n − 1.
 */
export function drawTagNumber(pickBelow: PickBelow): TagNumber {
  const ten = Array.from({ length: TAG_LENGTH - 2 }, (_, index) =>
    index === 0 ? TAG_ALPHABET[DIGITS + pickBelow(RADIX - DIGITS)] : TAG_ALPHABET[pickBelow(RADIX)],
  );
  const number = withCheckSymbols(ten.join(""));
  if (number === undefined) throw new Error("pickBelow(n) answered a value outside 0 to n − 1");
  return number;
}

/** Writes a number in three groups of four, as tags and screens show it: `C7K3 F92C XTKK`. */
export function formatTagNumber(number: TagNumber): string {
  return tagNumberGroups(number).join(" ");
}

/** Splits a number into its three groups of four. */
export function tagNumberGroups(number: TagNumber): readonly [string, string, string] {
  return [number.slice(0, 4), number.slice(4, 8), number.slice(8, 12)];
}

/** Spells a number for speech, groups parted by commas: "Charlie 7 Kilo 3, Foxtrot 9 2 Charlie, …". */
export function spellTagNumber(number: TagNumber): string {
  const spell = (group: string) => [...group].map((symbol) => SPOKEN[symbol] ?? symbol).join(" ");
  return tagNumberGroups(number).map(spell).join(", ");
}
