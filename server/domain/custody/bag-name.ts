/** A bag is said over the radio by a short number: "bag 217". Its place is named so, and its card shows the number. */
const NAMED = /^bag (\d{1,5})$/i;

/** Names the bag of a number. */
export function bagName(number: number): string {
  return `Bag ${number}`;
}

/** Reads a bag's number out of its name; undefined for a bag that is named otherwise. */
export function bagNumber(name: string): number | undefined {
  const digits = NAMED.exec(name)?.[1];
  return digits === undefined ? undefined : Number(digits);
}

/**
 * Gives the next numbers for bags, lowest first: those of closed bags are not given again, since a number that was said
 * over the radio last year must not name another bag. Give the names of all bags, closed ones too.
 */
export function nextBagNumbers(names: readonly string[], count: number): readonly number[] {
  const used = names.flatMap((name) => bagNumber(name) ?? []);
  const last = Math.max(FIRST_BAG - 1, ...used);
  return Array.from({ length: count }, (_, index) => last + 1 + index);
}

/** Three figures from the start, so that every number is said alike. */
const FIRST_BAG = 201;
