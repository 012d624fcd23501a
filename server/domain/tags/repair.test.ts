import fc from "fast-check";
import { expect, test } from "vitest";
import { suggestRepairs } from "./repair.ts";
import { parseTagNumber, TAG_ALPHABET, TAG_LENGTH, type TagNumber, withCheckSymbols } from "./tag-number.ts";

const SYMBOLS = [...TAG_ALPHABET];
const aTagNumber = (): fc.Arbitrary<TagNumber> =>
  fc
    .tuple(
      fc.constantFrom(...SYMBOLS.slice(10)),
      fc.array(fc.constantFrom(...SYMBOLS), { minLength: 9, maxLength: 9 }),
    )
    .map(([first, rest]) => withCheckSymbols(first + rest.join("")))
    .filter((number) => number !== undefined);
const replaced = (text: string, at: number, symbol: string) =>
  text.slice(0, at) + symbol + text.slice(at + 1);

test("tag facts 2.1: every single wrong symbol is located and its number suggested", () => {
  const number = "C7K3F92CXTKK";
  for (let at = 0; at < TAG_LENGTH; at += 1)
    for (const symbol of SYMBOLS.filter((other) => other !== number[at]))
      expect(suggestRepairs(replaced(number, at, symbol))).toContainEqual({
        change: "one symbol",
        number,
        at: at + 1,
      });
});

test("tag facts 2.1: two unreadable symbols are solved exactly, 20,000 of 20,000", () => {
  fc.assert(
    fc.property(aTagNumber(), fc.nat(11), fc.nat(11), (number, a, b) => {
      const torn = replaced(replaced(number, a, "?"), b, "?");
      expect(suggestRepairs(torn)).toEqual([{ change: "unreadable symbols", number }]);
    }),
    { numRuns: 20_000 },
  );
});

test("a swap of neighbours is suggested back", () => {
  expect(suggestRepairs("7CK3F92CXTKK").map((repair) => repair.number)).toContain("C7K3F92CXTKK");
  expect(suggestRepairs("C7K3F29CXTKK")).toContainEqual({
    change: "two symbols swapped",
    number: "C7K3F92CXTKK",
    at: 6,
  });
});

test("a symbol that no tag carries counts as unreadable, as when a keyboard gave Q for A", () => {
  expect(suggestRepairs("C7K3 F92C XTQK").map((repair) => repair.number)).toEqual(["C7K3F92CXTKK"]);
  expect(suggestRepairs("C7K3 F92C XTZZ").map((repair) => repair.number)).toEqual(["C7K3F92CXTKK"]);
});

test("tag facts 2.1: two wrong symbols lead to a wrong repair about every second time, so none is ever an answer", () => {
  let wrong = 0;
  let tried = 0;
  const number = "C7K3F92CXTKK";
  for (const a of [1, 4, 7])
    for (const b of [2, 6, 10])
      for (const x of SYMBOLS.filter((other) => other !== number[a]))
        for (const y of SYMBOLS.filter((other) => other !== number[b])) {
          const found = suggestRepairs(replaced(replaced(number, a, x), b, y));
          tried += 1;
          if (found.some((repair) => repair.change === "one symbol")) wrong += 1;
        }
  expect(wrong / tried).toBeGreaterThan(0.3);
  expect(wrong / tried).toBeLessThan(0.55);
});

test("nothing is suggested for another length, for three unreadable symbols, or for a number that holds", () => {
  expect(suggestRepairs("C7K3F92CXTK")).toEqual([]);
  expect(suggestRepairs("C7K3F92CXTKKK")).toEqual([]);
  expect(suggestRepairs("C???F92CXTKK")).toEqual([]);
  expect(suggestRepairs("C7K3F92CXTKK")).toEqual([]);
});

test("whatever is suggested holds and can be a number", () => {
  fc.assert(
    fc.property(
      fc.string({ minLength: 12, maxLength: 12, unit: fc.constantFrom(...SYMBOLS, "?", "Q") }),
      (text) => suggestRepairs(text).every((repair) => parseTagNumber(repair.number) === repair.number),
    ),
    { numRuns: 5_000 },
  );
});
