import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { TAG_ALPHABET, withCheckSymbols } from "../../server/domain/tags/tag-number.ts";
import type { ScanEvent } from "./scan-event.ts";
import { judgeTyping, typingSource } from "./typed-number.ts";

describe("a number while it is typed", () => {
  test("counts its symbols and shows them in groups of four", () => {
    expect(judgeTyping("c7k3f")).toEqual({
      code: "under way",
      shown: "C7K3 F",
      count: 5,
      of: 12,
      isLetterMissing: false,
      odd: "",
    });
  });
  test("takes blanks and hyphens as a person writes them", () => {
    expect(judgeTyping("C7K3 F92C-XTKK")).toMatchObject({ code: "holds", number: "C7K3F92CXTKK" });
  });
  test("reads O as 0, I and L as 1, S as 5, B as 8, U as V", () => {
    expect(judgeTyping("coilsbu")).toMatchObject({ shown: "C011 58V" });
  });
  test("says which symbols no tag carries", () => {
    expect(judgeTyping("C7WQ3W")).toMatchObject({ code: "under way", odd: "WQ" });
  });
  test("says that a number begins with a letter", () => {
    expect(judgeTyping("7C")).toMatchObject({ isLetterMissing: true });
  });
  test("is nothing for blanks alone", () => {
    expect(judgeTyping("  - ")).toEqual({ code: "nothing" });
  });
});

describe("twelve typed symbols", () => {
  test("hold at the twelfth symbol and not before", () => {
    const number = "C7K3F92CXTKK";
    const codes = [...number].map((_, index) => judgeTyping(number.slice(0, index + 1)).code);
    expect(codes).toEqual([...Array(11).fill("under way"), "holds"]);
  });
  test("with one wrong symbol do not hold, whichever it is, and the right number is suggested", () => {
    const anyNumber = fc
      .tuple(
        fc.constantFrom(...TAG_ALPHABET.slice(10)),
        fc.array(fc.constantFrom(...TAG_ALPHABET), { minLength: 9, maxLength: 9 }),
      )
      .map(([first, rest]) => withCheckSymbols(first + rest.join("")) ?? "");
    fc.assert(
      fc.property(
        anyNumber,
        fc.integer({ min: 1, max: 11 }),
        fc.constantFrom(...TAG_ALPHABET),
        (number, at, symbol) => {
          fc.pre(number[at] !== symbol);
          const wrong = number.slice(0, at) + symbol + number.slice(at + 1);
          const judged = judgeTyping(wrong);
          expect(judged.code).toBe("does not hold");
          expect(judged.code === "does not hold" && judged.suggestions).toContain(number);
        },
      ),
    );
  });
  test("with two that cannot be read are solved", () => {
    expect(judgeTyping("C7?3F92CX?KK")).toMatchObject({
      code: "does not hold",
      suggestions: ["C7K3F92CXTKK"],
    });
  });
});

test("a maker's number or a link is looked up as it stands", () => {
  expect(judgeTyping(" 4006381333931 ")).toEqual({ code: "other code", text: "4006381333931" });
  expect(judgeTyping("TX/4471")).toEqual({ code: "other code", text: "TX/4471" });
});

test("what is entered comes out as a typed scan, blanks alone do not", () => {
  const scans: ScanEvent[] = [];
  const source = typingSource();
  source.listen((event) => scans.push(event));
  source.enter("  ");
  source.enter(" C7K3 F92C XTKK ");
  source.stop();
  source.enter("C7K3F92CXTKK");
  expect(scans).toMatchObject([{ text: "C7K3 F92C XTKK", via: "typed", carrier: "hand" }]);
});
