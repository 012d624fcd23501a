/** How two sizes as printed relate. `unclear` says why the writing alone does not decide. */
export type SizeComparison =
  | { readonly relation: "same" }
  | { readonly relation: "differs" }
  | { readonly relation: "unclear"; readonly why: SizeDoubt };

/** Same letters and digits parted in different places, or a letter against a word that it may stand for. */
export type SizeDoubt = "parted differently" | "may be an abbreviation";

/** Hyphen, minus and dash characters that a spreadsheet or a keyboard puts where a label has a hyphen. */
const DASHES = /[\u2010-\u2015\u2212]/g;
/** An x between two numbers of two or more digits, with equal spacing on both sides ("46x32", "46 x 32"). */
const TIMES = /(?<=\d\d|\.\d)(?:X| +X +)(?=\d\d)/g;
const PIECES_OF_A_SIZE = /\d+(?:\.\d+)?|\p{L}+|[ /-]+|./gu;
/** Four digits without a separator are two numbers of two: "4632R" is chest 46, length 32 (common practice, facts.md 2.4). */
const FOUR_DIGITS = /^\d{4}$/;

/** Words that one letter of a size may stand for. Common practice; L and S each stand for two, so none is folded. */
const ABBREVIATIONS: Readonly<Record<string, readonly string[]>> = {
  R: ["REG", "REGULAR"],
  S: ["SH", "SHORT", "SM", "SMALL"],
  M: ["MED", "MEDIUM"],
  L: ["LG", "LONG", "LARGE"],
  XL: ["XLG", "XLARGE"],
};

const ONE_SIZE = new Set([
  "ONESIZE",
  "OS",
  "OSFA",
  "OSFM",
  "ONESIZEFITSALL",
  "ONESIZEFITSMOST",
  "UNIVERSAL",
  "UNISIZE",
]);

/**
 * Rewrites a size as printed in one form, by formatting alone: case, spaces, and hyphen, slash or x between
 * numbers and letters. Numbers and letters then stand apart by one space: "46-32-R" and "4632R" give "46 32 R".
 * Separators between two words stay ("S/M"), since they may carry meaning. No tolerance, no abbreviation.
 * Source: facts.md 2.2 (no published size tolerance) and 2.4 (sample "4632R" of a published label, S6).
 */
export function normaliseSize(printed: string): string {
  const parts: string[] = [];
  let separator = "";
  for (const part of tokensOf(printed)) {
    if (/^[ /-]/.test(part)) {
      separator = part;
      continue;
    }
    const last = parts.at(-1);
    const mayDrop =
      last !== undefined && isPlain(last) && isPlain(part) && (isNumber(last) || isNumber(part));
    if (separator !== "" && !mayDrop && (last !== undefined || separator.trim() !== "")) {
      parts.push(separator.trim() === "" ? "␣" : separator.replaceAll(" ", ""));
    }
    separator = "";
    if (FOUR_DIGITS.test(part)) parts.push(part.slice(0, 2), part.slice(2));
    else parts.push(part);
  }
  if (separator.trim() !== "") parts.push(separator.replaceAll(" ", ""));
  return parts.join(" ");
}

/**
 * Compares two sizes as whole strings after formatting-only normalisation. Symmetric. `unclear` when letters and
 * digits agree but are parted differently ("4 632R", "46 32R"), or when a letter meets a word that it may stand
 * for ("R", "Regular"): neither is taken as the same.
 */
export function compareSizes(one: string, other: string): SizeComparison {
  const [a, b] = [normaliseSize(one), normaliseSize(other)];
  if (a === b) return { relation: "same" };
  if (bare(one) === bare(other)) return { relation: "unclear", why: "parted differently" };
  if (mayAbbreviate(a.split(" "), b.split(" ")))
    return { relation: "unclear", why: "may be an abbreviation" };
  return { relation: "differs" };
}

/** Tells whether a size as printed says that the piece has one size ("One size", "OSFA", "Universal"). */
export function isOneSize(printed: string): boolean {
  return ONE_SIZE.has(bare(printed));
}

function tokensOf(printed: string): readonly string[] {
  const folded = printed
    .normalize("NFC")
    .toUpperCase()
    .replace(DASHES, "-")
    .replaceAll("×", "X")
    .replace(/\s+/g, " ");
  return folded.trim().replace(TIMES, " ").match(PIECES_OF_A_SIZE) ?? [];
}

function isNumber(token: string): boolean {
  return /^\d/.test(token);
}

/** Whether a token is a number or a word, and not some other sign, next to which nothing may be dropped. */
function isPlain(token: string): boolean {
  return /^[\d\p{L}]/u.test(token);
}

function bare(printed: string): string {
  return printed
    .normalize("NFC")
    .toUpperCase()
    .replace(/[^\p{L}\p{N}]/gu, "");
}

function mayAbbreviate(a: readonly string[], b: readonly string[]): boolean {
  return (
    a.length === b.length &&
    a.every((token, index) => {
      const other = b[index];
      return other !== undefined && (token === other || standsFor(token, other) || standsFor(other, token));
    })
  );
}

function standsFor(short: string, long: string): boolean {
  return Object.hasOwn(ABBREVIATIONS, short) && ABBREVIATIONS[short]?.includes(long) === true;
}
