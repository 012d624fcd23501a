import { describe, expect, it } from "vitest";
import { sayForeign, sayMisread, sayReplacedTag, sayUnattached, sayUnknownNumber } from "./scan-phrases.ts";
import { seamRows, verdictHead, verdictSentences } from "./verdict-phrases.ts";
import { inRegion, kindWords, listOf, midSentence, words } from "./words.ts";

const W = words("US");

/** Every fixed text of a set: strings, lists, tables. Sentences that are made from facts are left to their callers. */
function texts(said: unknown): readonly string[] {
  if (typeof said === "string") return [said];
  if (typeof said !== "object" || said === null) return [];
  return Object.values(said).flatMap(texts);
}

describe("label checks in words", () => {
  const rows = [
    { field: "garment", outer: "coat", inner: "coat", verdict: "match" },
    { field: "maker", outer: "Tarnholt", inner: "Tarnholt", verdict: "match" },
    { field: "model-or-code", outer: "LK-2", inner: "LK-3", verdict: "differs" },
    { field: "size", outer: "46 32 R", inner: undefined, verdict: "differs" },
    { field: "made", outer: "Mar 2022", inner: "Aug 2023", verdict: "shown" },
  ] as const;

  it("leave the garment out while it agrees, and keep the order of the rest", () => {
    expect(seamRows(rows, W).map((row) => row.label)).toEqual(["Maker", "Liner code", "Size", "Made"]);
    const differing = rows.map((row) =>
      row.field === "garment" ? { ...row, verdict: "differs" as const } : row,
    );
    expect(seamRows(differing, W)[0]?.label).toBe("Garment");
  });

  it("frame the liner code, name what is unknown and what is not compared", () => {
    const said = seamRows(rows, W);
    expect([said[1]?.left, said[1]?.right]).toEqual(["takes LK-2", "is LK-3"]);
    expect(said[2]?.right).toBe("not recorded");
    expect([said[3]?.note, said[3]?.verdict]).toEqual(["not compared", "none"]);
  });

  it("say what differs in one sentence", () => {
    expect(verdictHead("differs", W)).toBe("Differs");
    expect(verdictSentences("differs", "liner", rows, W)).toEqual([
      "This liner does not belong in this shell.",
      "Liner code and size are not the same.",
    ]);
  });
});

describe("scans in words", () => {
  it("suggest what a misread number meant, to be compared", () => {
    const misread = sayMisread([{ number: "C7K3 F92C XTKK", title: "coat shell", where: "Rack B2" }]);
    expect(misread.why).toBe("Did you mean C7K3 F92C XTKK, coat shell, Rack B2?");
    expect(sayMisread([]).why).toBeUndefined();
  });

  it("say of a stranger's code what it reads and that it is kept", () => {
    expect(sayForeign("12345678").why).toBe("It reads 12345678; kept with this scan.");
  });

  it("open the piece of a replaced tag and say so", () => {
    expect(sayReplacedTag("superseded", "3 Jun")).toBe("This tag was replaced on 3 Jun. The piece is shown.");
    expect(sayUnattached("RK69 JC3F 95C0", "void").what).toBe("Tag RK69 JC3F 95C0 is void.");
    expect(sayUnknownNumber("RK69 JC3F 95C0", W).what).toBe("This tag is not in the register.");
  });
});

describe("words", () => {
  it("differ by region only where the region does", () => {
    const abroad = words("international");
    expect([W.pants, abroad.pants]).toEqual(["Pants", "Trousers"]);
    expect(abroad.lookUp).toBe(W.lookUp);
    expect(inRegion("Pants shell, program manager", "international")).toBe(
      "Trousers shell, programme manager",
    );
    expect(inRegion("Pants shell", "US")).toBe("Pants shell");
  });

  it("hold no word that the glossary says not to say", () => {
    const said = texts(W)
      .join("\n")
      .replace(/company officer/g, "");
    expect(said.length).toBeGreaterThan(1000);
    expect(said).not.toMatch(
      /\b(item|asset|kit|bundle|sku|standing order|officer|trousers|re-?pair|flag)s?\b/i,
    );
    expect(said).not.toMatch(/\b(please|oops|invalid|success)\b|!/i);
  });

  it("never say pants or program manager abroad", () => {
    expect(texts(words("international")).join("\n")).not.toMatch(/\bpants\b|\bprogram manager\b/i);
    expect(texts(W).join("\n")).toMatch(/\bpants\b/i);
  });

  it("list names as they are spoken", () => {
    expect([listOf([]), listOf(["a"]), listOf(["a", "b"]), listOf(["a", "b", "c"], "or")]).toEqual([
      "",
      "a",
      "a and b",
      "a, b or c",
    ]);
  });

  it("leave a DRD in capitals within a sentence, by its name and by the code of its kind", () => {
    expect([midSentence("DRD"), kindWords("drd"), kindWords("proximity-drd")]).toEqual([
      "DRD",
      "DRD",
      "proximity DRD",
    ]);
    expect([midSentence("Coat liner"), kindWords("coat-liner")]).toEqual(["coat liner", "coat liner"]);
  });
});
