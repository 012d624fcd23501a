import {
  checkSums,
  foldTagText,
  inverse,
  modRadix,
  parseTagNumber,
  solveTwo,
  symbolValues,
  TAG_ALPHABET,
  TAG_LENGTH,
  type TagNumber,
} from "./tag-number.ts";

/** How a suggestion differs from what was read; positions run 1 to 12. */
export type Repair =
  | { readonly change: "one symbol"; readonly number: TagNumber; readonly at: number }
  | { readonly change: "two symbols swapped"; readonly number: TagNumber; readonly at: number }
  | { readonly change: "unreadable symbols"; readonly number: TagNumber };

/**
 * Suggests numbers that were perhaps meant, for twelve symbols of which up to two are unreadable (`?`, or a symbol
 * that no tag carries). With none unreadable: the one number that differs in one symbol, and those that differ by
 * a swap of neighbours. Returns none for another length, or when nothing fits. A suggestion is never an answer:
 * two wrong symbols lead to a wrong repair about every second time (tag-number check, 2 symbols over GF(23)), so
 * the caller keeps what the register knows, shows the piece, and a person confirms.
 */
export function suggestRepairs(text: string): readonly Repair[] {
  const folded = foldTagText(text);
  const values = symbolValues(folded);
  const unreadable = values.filter((value) => value === undefined).length;
  if (values.length !== TAG_LENGTH || unreadable > 2) return [];
  if (unreadable === 2) return asUnreadable(solveTwo(values));
  if (unreadable === 1) return asUnreadable(solveOne(values));
  return parseTagNumber(folded) === undefined ? [...oneSymbol(values), ...swaps(folded)] : [];
}

function asUnreadable(symbols: string | undefined): readonly Repair[] {
  const number = symbols === undefined ? undefined : parseTagNumber(symbols);
  return number === undefined ? [] : [{ change: "unreadable symbols", number }];
}

/** One unknown, two sums: the first gives the symbol, parsing checks the second. */
function solveOne(values: readonly (number | undefined)[]): string {
  const position = values.indexOf(undefined) + 1;
  const missing = modRadix(-checkSums(values).s1 * inverse(position));
  return values.map((value) => TAG_ALPHABET[value ?? missing] ?? "").join("");
}

/** A single error e at position i leaves s1 = i·e and s2 = i²·e, so i = s2 / s1 and e = s1 / i. */
function oneSymbol(values: readonly (number | undefined)[]): readonly Repair[] {
  const { s1, s2 } = checkSums(values);
  if (s1 === 0 || s2 === 0) return [];
  const at = modRadix(s2 * inverse(s1));
  if (at > TAG_LENGTH) return [];
  const error = modRadix(s1 * inverse(at));
  const mended = values.map((value, index) => (index + 1 === at ? modRadix((value ?? 0) - error) : value));
  const number = parseTagNumber(mended.map((value) => TAG_ALPHABET[value ?? 0] ?? "").join(""));
  return number === undefined ? [] : [{ change: "one symbol", number, at }];
}

function swaps(folded: string): readonly Repair[] {
  return Array.from({ length: TAG_LENGTH - 1 }, (_, index): readonly Repair[] => {
    const swapped = `${folded.slice(0, index)}${folded[index + 1]}${folded[index]}${folded.slice(index + 2)}`;
    const number = parseTagNumber(swapped);
    return number === undefined ? [] : [{ change: "two symbols swapped", number, at: index + 1 }];
  }).flat();
}
