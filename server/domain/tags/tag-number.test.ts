import fc from "fast-check";
import { expect, test } from "vitest";
import {
  drawTagNumber,
  foldTagText,
  formatTagNumber,
  parseTagNumber,
  spellTagNumber,
  TAG_ALPHABET,
  TAG_LENGTH,
  type TagNumber,
  withCheckSymbols,
} from "./tag-number.ts";

const SYMBOLS = [...TAG_ALPHABET];
const aTagNumber = (): fc.Arbitrary<TagNumber> =>
  fc
    .tuple(
      fc.constantFrom(...SYMBOLS.slice(10)),
      fc.array(fc.constantFrom(...SYMBOLS), { minLength: 9, maxLength: 9 }),
    )
    .map(([first, rest]) => withCheckSymbols(first + rest.join("")))
    .filter((number) => number !== undefined);
const known = (text: string): TagNumber => {
  const number = parseTagNumber(text);
  if (number === undefined) throw new Error(`${text} does not hold`);
  return number;
};
const replaced = (text: string, at: number, symbol: string) =>
  text.slice(0, at) + symbol + text.slice(at + 1);

/** Seeds of numbers on which every error of a kind is tried, not a sample of them. */
const SEEDS = ["C7K3F92CXTKK", "X00000000013", "F1234567896F", "PRTVXCDFGHJ2"].map(known);

test("tag facts 2.1, own vectors: the two check symbols of ten symbols", () => {
  expect(withCheckSymbols("C7K3F92CXT")).toBe("C7K3F92CXTKK");
  expect(withCheckSymbols("X000000000")).toBe("X00000000013");
  expect(withCheckSymbols("F123456789")).toBe("F1234567896F");
  expect(withCheckSymbols("PRTVXCDFGH")).toBe("PRTVXCDFGHJ2");
});

test("check symbols are given to ten symbols of the alphabet with a letter first, and to nothing else", () => {
  expect(withCheckSymbols("C7K3F92CX")).toBeUndefined();
  expect(withCheckSymbols("17K3F92CXT")).toBeUndefined();
  expect(withCheckSymbols("C7K3F92CXE")).toBeUndefined();
});

test("a number is taken in any case, grouped or not, and with the letters that look like another symbol", () => {
  expect(parseTagNumber(" c7k3-f92c.xtkk\r\n")).toBe("C7K3F92CXTKK");
  expect(parseTagNumber("XOOOOOOOOOI3")).toBe("X00000000013");
  expect(foldTagText("ilosbu")).toBe("11058V");
  expect(foldTagText("qzwam")).toBe("QZWAM");
});

test("twelve digits are never a tag number, so a retail barcode of that length stays foreign", () => {
  const twelveDigits = fc.stringMatching(/^[0-9]{12}$/);
  fc.assert(
    fc.property(twelveDigits, (digits) => parseTagNumber(digits) === undefined),
    { numRuns: 20_000 },
  );
});

test("tag facts 1.6, own GF(23): of all single wrong symbols none is missed", () => {
  let tried = 0;
  for (const number of SEEDS)
    for (let at = 0; at < TAG_LENGTH; at += 1)
      for (const symbol of SYMBOLS.filter((other) => other !== number[at])) {
        tried += 1;
        expect(parseTagNumber(replaced(number, at, symbol))).toBeUndefined();
      }
  expect(tried).toBe(SEEDS.length * 12 * 22);
});

test("tag facts 1.6, own GF(23): of all double wrong symbols none is missed", () => {
  let tried = 0;
  const missed: string[] = [];
  for (const number of SEEDS)
    for (let a = 0; a < TAG_LENGTH; a += 1)
      for (let b = a + 1; b < TAG_LENGTH; b += 1)
        for (const x of SYMBOLS.filter((other) => other !== number[a]))
          for (const y of SYMBOLS.filter((other) => other !== number[b])) {
            tried += 1;
            const wrong = replaced(replaced(number, a, x), b, y);
            if (parseTagNumber(wrong) !== undefined) missed.push(wrong);
          }
  expect(missed).toEqual([]);
  expect(tried).toBe(SEEDS.length * 66 * 22 * 22);
});

test("tag facts 1.6, own GF(23): no swap of two different symbols is missed, near or far", () => {
  fc.assert(
    fc.property(aTagNumber(), fc.nat(11), fc.nat(11), (number, a, b) => {
      fc.pre(number[a] !== number[b]);
      const swapped = replaced(replaced(number, a, number[b] ?? ""), b, number[a] ?? "");
      return parseTagNumber(swapped) === undefined;
    }),
    { numRuns: 20_000 },
  );
});

test("tag facts 1.6, own GF(23): turns and swapped groups slip through at about 1 in 529", () => {
  let state = 20_260_101;
  const pickBelow = (n: number) => {
    state = (state * 1_103_515_245 + 12_345) % 2_147_483_648;
    return Math.floor((state / 2_147_483_648) * n);
  };
  const trials = 60_000;
  const missed = { turned: 0, groups: 0 };
  for (let trial = 0; trial < trials; trial += 1) {
    const number = drawTagNumber(pickBelow);
    const turned = number.slice(1) + number[0];
    const groups = number.slice(4, 8) + number.slice(0, 4) + number.slice(8);
    if (turned !== number && parseTagNumber(turned) !== undefined) missed.turned += 1;
    if (groups !== number && parseTagNumber(groups) !== undefined) missed.groups += 1;
  }
  // The first symbol must be a letter as well, so the shares lie a little under the 0.18 % and 0.17 % of the source.
  expect(missed.turned / trials).toBeLessThan(0.0025);
  expect(missed.groups / trials).toBeLessThan(0.0025);
  expect(missed.turned + missed.groups).toBeGreaterThan(0);
});

test("a drawn number holds, begins with a letter and takes its chance from the caller alone", () => {
  const draws = (pickBelow: (n: number) => number) => drawTagNumber(pickBelow);
  expect(draws(() => 0)).toBe(draws(() => 0));
  fc.assert(
    fc.property(fc.infiniteStream(fc.nat(1_000_000)), (stream) => {
      const number = drawTagNumber((n) => (stream.next().value ?? 0) % n);
      return parseTagNumber(number) === number && /^[CDFGHJKNPRTVX]/.test(number);
    }),
  );
  expect(() => drawTagNumber((n) => n)).toThrow("outside 0 to n − 1");
});

test("a number is shown in three groups of four and spelled for speech", () => {
  expect(formatTagNumber(known("c7k3f92cxtkk"))).toBe("C7K3 F92C XTKK");
  expect(spellTagNumber(known("C7K3F92CXTKK"))).toBe(
    "Charlie 7 Kilo 3, Foxtrot 9 2 Charlie, X-ray Tango Kilo Kilo",
  );
});

test("every letter of the alphabet has a spoken word", () => {
  for (const symbol of SYMBOLS.slice(10)) {
    const number = known(withCheckSymbols(`${symbol}000000000`) ?? "");
    expect(spellTagNumber(number)).toMatch(new RegExp(`^${symbol}[a-z-]+`));
  }
});
