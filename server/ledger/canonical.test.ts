import { describe, expect, test } from "vitest";
import { canonicalBytes, type LedgerValue, sha256 } from "./canonical.ts";

const text = (value: LedgerValue) => canonicalBytes(value).toString("utf8");

describe("RFC 8785", () => {
  test("the sample of section 3.2.2 without its floats comes out as the bytes of section 3.2.4", () => {
    const sample = JSON.parse(String.raw`{
      "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
      "literals": [null, true, false]
    }`) as LedgerValue;
    const published =
      "7b226c69746572616c73223a5b6e756c6c2c747275652c66616c73655d2c" +
      "22737472696e67223a22e282ac245c75303030665c6e4127425c225c5c5c5c5c222f227d";
    expect(canonicalBytes(sample).toString("hex")).toBe(published);
  });

  test("the names of section 3.2.3 are sorted by their UTF-16 code units", () => {
    const sample = JSON.parse(String.raw`{
      "\u20ac": "Euro Sign",
      "\r": "Carriage Return",
      "\ufb33": "Hebrew Letter Dalet With Dagesh",
      "1": "One",
      "\ud83d\ude00": "Emoji: Grinning Face",
      "\u0080": "Control",
      "\u00f6": "Latin Small Letter O With Diaeresis"
    }`) as LedgerValue;
    expect(Object.values(JSON.parse(text(sample)) as object)).toHaveLength(7);
    const published = [
      "Carriage Return",
      "One",
      "Control",
      "Latin Small Letter O With Diaeresis",
      "Euro Sign",
      "Emoji: Grinning Face",
      "Hebrew Letter Dalet With Dagesh",
    ];
    const places = published.map((value) => text(sample).indexOf(`"${value}"`));
    expect(places).toEqual([...places].sort((a, b) => a - b));
    expect(places).not.toContain(-1);
  });

  test("the numbers of appendix B that are whole and safe come out as published", () => {
    // The IEEE 754 patterns of the appendix: zero, minus zero.
    const zeroes = ["0000000000000000", "8000000000000000"].map((hex) =>
      Buffer.from(hex, "hex").readDoubleBE(),
    );
    expect(text(zeroes)).toBe("[0,0]");
  });

  test("a lone surrogate is an error, as section 3.2.2.2 says", () => {
    expect(() => canonicalBytes("\ud800")).toThrow();
    expect(() => canonicalBytes({ "\udead": 1 })).toThrow();
  });
});

test("the other numbers of RFC 8785 appendix B are refused: the ledger holds whole numbers that are safe everywhere", () => {
  const patterns = [
    "0000000000000001",
    "7fefffffffffffff",
    "4340000000000000",
    "c340000000000000",
    "4430000000000000",
    "44b52d02c7e14af5",
    "41b3de4355555557",
    "becbf647612f3696",
    "7fffffffffffffff",
    "7ff0000000000000",
  ];
  for (const hex of patterns) {
    const number = Buffer.from(hex, "hex").readDoubleBE();
    expect(() => canonicalBytes({ deep: [number] }), hex).toThrow(/integers only/);
  }
  expect(text(Number.MAX_SAFE_INTEGER)).toBe("9007199254740991");
});

test("members that are undefined are left out, so that absent and undefined hash alike", () => {
  expect(text({ b: 1, a: undefined, c: { d: undefined } })).toBe('{"b":1,"c":{}}');
});

test("SHA-256 of parts is that of their bytes one after the other (FIPS 180-4 example 'abc')", () => {
  expect(sha256("a", Buffer.from("bc")).toString("hex")).toBe(
    "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad",
  );
});
