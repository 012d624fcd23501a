import fc from "fast-check";
import { expect, test } from "vitest";
import { compareSizes, isOneSize, normaliseSize } from "./normalise-size.ts";

const sameSizes: readonly (readonly [rule: string, one: string, other: string])[] = [
  ["case", "46 32 r", "46 32 R"],
  ["spaces around", " 46 32 R ", "46 32 R"],
  ["several spaces and a tab", "46  32\tR", "46 32 R"],
  ["a no-break space", "46\u00a032 R", "46 32 R"],
  ["no space before the letter", "46 32R", "46 32 R"],
  ["hyphens", "46-32-R", "46 32 R"],
  ["dashes of a spreadsheet", "46–32—R", "46 32 R"],
  ["slashes", "46/32/R", "46 32 R"],
  ["a spaced hyphen", "46 - 32 R", "46 32 R"],
  ["x between two numbers", "46x32 R", "46 32 R"],
  ["spaced X between two numbers", "46 X 32 R", "46 32 R"],
  ["multiplication sign", "46×32R", "46 32 R"],
  ["half sizes keep their point", "46-32.5", "46 32.5"],
  ["letters alone", "xl", "XL"],
  ["a number before a letter size", "2-XL", "2XL"],
];
test.each(sameSizes)("formatting alone does not make another size: %s (%s, %s)", (_rule, one, other) => {
  expect(normaliseSize(one)).toBe(normaliseSize(other));
  expect(compareSizes(one, other)).toEqual({ relation: "same" });
});

test("maker's sample label (facts.md S6): 4632R is chest 46, length 32, R (reading by common practice)", () => {
  expect(normaliseSize("4632R")).toBe("46 32 R");
  for (const written of ["46 32 R", "46-32-R", "46/32R", "46x32R"]) {
    expect(compareSizes("4632R", written)).toEqual({ relation: "same" });
  }
});

const otherSizes: readonly (readonly [why: string, one: string, other: string])[] = [
  ["one chest step (2 in, bid specification S58)", "46 32 R", "48 32 R"],
  ["one sleeve step (1 in, bid specification S58)", "46 32 R", "46 33 R"],
  ["regular and long", "46 32 R", "46 32 L"],
  ["a cut that one label lacks", "46 32", "46 32 R"],
  ["half an inch", "46 32.5 R", "46 32 R"],
  ["letter sizes", "XL", "2XL"],
  ["a leading zero", "046 32 R", "46 32 R"],
  ["the letter O and the figure 0", "4O 32 R", "40 32 R"],
  ["x after one figure is a size, no separator", "3X 46", "3 46"],
  ["swapped numbers", "46 32", "32 46"],
];
test.each(otherSizes)("no tolerance (facts.md 2.2): %s (%s, %s) differ", (_why, one, other) => {
  expect(compareSizes(one, other)).toEqual({ relation: "differs" });
});

const unclearSizes = [
  ["parted differently", "4 632 R", "46 32 R"],
  ["parted differently", "463", "46 3"],
  ["parted differently", "X-L", "XL"],
  ["parted differently", "S/M", "SM"],
  ["parted differently", "S/M", "S-M"],
  ["parted differently", "46,32,R", "46 32 R"],
  ["parted differently", "32.5", "325"],
  ["may be an abbreviation", "46 32 R", "46 32 Regular"],
  ["may be an abbreviation", "L", "Long"],
  ["may be an abbreviation", "L", "Large"],
] as const;
test.each(unclearSizes)("is never taken as the same, and says why: %s (%s, %s)", (why, one, other) => {
  expect(compareSizes(one, other)).toEqual({ relation: "unclear", why });
});

test("a word that the letter cannot stand for differs", () => {
  expect(compareSizes("46 32 R", "46 32 Long")).toEqual({ relation: "differs" });
  expect(compareSizes("Regular", "Reg")).toEqual({ relation: "differs" });
});

test.each(["One size", "ONE-SIZE", "OSFA", "universal"])("%s is one size", (printed) => {
  expect(isOneSize(printed)).toBe(true);
});

test("a size in figures is not one size", () => {
  expect(isOneSize("46 32 R")).toBe(false);
  expect(isOneSize("")).toBe(false);
});

const numbers = fc.integer({ min: 20, max: 69 }).map(String);
const letters = fc.constantFrom("R", "S", "L", "XL", "");
const between = fc.constantFrom(" ", "-", "/", "x", " x ", "  ", " - ");
const beforeLetter = fc.constantFrom("", " ", "-", "/");
const writings = fc.record({ a: numbers, b: numbers, c: letters, one: between, two: beforeLetter });
const write = ({ a, b, c, one, two }: { a: string; b: string; c: string; one: string; two: string }) =>
  `${a}${one}${b}${c === "" ? "" : two + c}`;

test("property: however chest, length and letter are written, the size is the same only if all three are", () => {
  fc.assert(
    fc.property(writings, writings, (x, y) => {
      const isSame = x.a === y.a && x.b === y.b && x.c === y.c;
      expect(compareSizes(write(x), write(y)).relation).toBe(isSame ? "same" : "differs");
    }),
    { numRuns: 500 },
  );
});

const anyText = fc.oneof(
  fc.string({ unit: "grapheme" }),
  fc.string({
    unit: fc.constantFrom("4", "6", "3", "2", "R", "x", "X", "L", " ", "-", "/", ".", "×", "é", "½"),
  }),
);
test("property: comparing sizes is symmetric, and any text is the same as itself", () => {
  fc.assert(
    fc.property(anyText, anyText, (one, other) => {
      expect(compareSizes(one, other)).toEqual(compareSizes(other, one));
      expect(compareSizes(one, one)).toEqual({ relation: "same" });
    }),
    { numRuns: 2000 },
  );
});

test("property: case never makes another size", () => {
  fc.assert(
    fc.property(fc.string({ unit: "grapheme-ascii" }), (printed) => {
      expect(compareSizes(printed.toLowerCase(), printed.toUpperCase())).toEqual({ relation: "same" });
    }),
  );
});

test("property: sizes that are the same have the same letters and digits", () => {
  const bare = (text: string) =>
    text
      .normalize("NFC")
      .toUpperCase()
      .replaceAll("×", "X")
      .replace(/[^\p{L}\p{N}]/gu, "");
  const withoutTimes = (text: string) => bare(text).replace(/(?<=\d)X(?=\d)/g, "");
  fc.assert(
    fc.property(anyText, anyText, (one, other) => {
      if (compareSizes(one, other).relation === "same") expect(withoutTimes(one)).toBe(withoutTimes(other));
    }),
    { numRuns: 2000 },
  );
});
