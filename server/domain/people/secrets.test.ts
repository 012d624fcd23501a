import { describe, expect, it } from "vitest";
import { parsePassphrase, parsePin, parseSignInName } from "./secrets.ts";
import { lockAfterMs } from "./tries.ts";

describe("what people sign in with", () => {
  it("takes any passphrase of twelve characters and none of eleven, counted as a person counts them", () => {
    expect(parsePassphrase("aaaaaaaaaaaa")).toBe("aaaaaaaaaaaa");
    expect(parsePassphrase("aaaaaaaaaaa")).toBeUndefined();
    expect(parsePassphrase("🧯".repeat(11))).toBeUndefined();
    expect(parsePassphrase("🧯".repeat(12))).toBeDefined();
    expect(parsePassphrase("x".repeat(257))).toBeUndefined();
  });

  it("reads one passphrase typed composed and decomposed as the same (Unicode UAX 15, NFKC)", () => {
    expect(parsePassphrase("caf\u00e9 au lait")).toBe(parsePassphrase("cafe\u0301 au lait"));
  });

  it("takes a PIN of 4 to 6 digits that are not all alike", () => {
    expect(["1234", "10100", "271828"].map(parsePin)).toEqual(["1234", "10100", "271828"]);
    expect(["123", "1234567", "1111", "12a4", "１２３４"].map(parsePin)).toEqual(Array(5).fill(undefined));
  });

  it("folds a sign-in name, so that it is found however it is typed", () => {
    expect(parseSignInName("  Inez.Calloway ")).toBe("inez.calloway");
    expect(["a", "two words", "x".repeat(65), "a\u0000b"].map(parseSignInName)).toEqual(
      Array(4).fill(undefined),
    );
  });
});

describe("the pause after wrong tries", () => {
  it("begins with the fifth and doubles up to an hour", () => {
    expect([1, 4, 5, 6, 7, 10, 11, 12, 500].map((tries) => lockAfterMs(tries) / 60_000)).toEqual([
      0, 0, 1, 2, 4, 32, 60, 60, 60,
    ]);
  });

  it("makes ten thousand PINs take more than a year", () => {
    let total = 0;
    for (let tries = 1; tries <= 10_000; tries += 1) total += lockAfterMs(tries);
    expect(total).toBeGreaterThan(365 * 86_400_000);
  });
});
