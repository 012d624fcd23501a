import { describe, expect, it } from "vitest";
import { nextForReasons, sayLabelReason } from "./reason-phrases.ts";
import {
  blockedConfirm,
  type RefusalFacts,
  refusalHead,
  sayRefusal,
  spokenRefusal,
} from "./refusal-phrases.ts";
import { sayForeign, sayMisread, sayReplacedTag, sayUnattached, sayUnknownNumber } from "./scan-phrases.ts";
import type { Speaker } from "./speaker.ts";
import { seamRows, verdictHead, verdictSentences } from "./verdict-phrases.ts";
import { inRegion, listOf, words } from "./words.ts";

const W = words("US");

/** Every fixed text of a set: strings, lists, tables. Sentences that are made from facts are left to their callers. */
function texts(said: unknown): readonly string[] {
  if (typeof said === "string") return [said];
  if (typeof said !== "object" || said === null) return [];
  return Object.values(said).flatMap(texts);
}

const speaker: Speaker = {
  words: W,
  piece: (id) =>
    ({ shell: "Coat shell C7K3 F92C XTKK", liner: "Coat liner HJ9V 2939 03KX" })[id] ?? `Piece ${id}`,
  where: () => "on Rack C1",
  person: () => "Odile Verrill",
  holder: (holder) => (holder.kind === "place" ? "Rack B2" : "Corwin Bask"),
  lifts: () => "a program manager",
  when: () => "12 Nov",
  kind: () => "DRD",
};

const ONE_OF_EACH: readonly RefusalFacts[] = [
  { code: "unknown-subject", subject: "x", what: "piece" },
  { code: "changed", subject: "liner", what: "holder", was: { kind: "place" }, is: { kind: "member" } },
  { code: "changed", subject: "liner", what: "fitted in", was: null, is: "shell" },
  { code: "changed", subject: "liner", what: "version", was: "1", is: "2" },
  { code: "retired", subject: "shell", at: 0 },
  { code: "held", subject: "shell", hold: "contamination", since: 0, by: "odile" },
  { code: "soiled", subject: "shell" },
  { code: "label-not-read", subject: "liner" },
  { code: "fitted-elsewhere", subject: "liner", shell: "shell" },
  { code: "left-inside", subject: "liner", shell: "shell" },
  { code: "not-fitted-there", subject: "liner", shell: "shell" },
  { code: "place-in-shell-taken", subject: "liner", shell: "shell", by: "other" },
  { code: "not-a-shell", subject: "liner", kind: "coat-liner" },
  { code: "not-a-layer", subject: "shell", kind: "coat-shell" },
  { code: "labels", subject: "liner", shell: "shell", verdict: "not-read", reasons: [] },
  { code: "layer-missing", subject: "shell", layerKind: "drd" },
  { code: "already-there", subject: "shell", holder: { kind: "place" } },
  { code: "in-the-future", at: 1, now: 0 },
  { code: "does-not-fit-the-record", subject: "shell" },
  { code: "serial-taken", subject: "x", by: "shell", serial: "T-1" },
  { code: "name-taken", what: "place", name: "Rack B2" },
  { code: "code-bound", text: "123", by: "shell" },
  { code: "tag", subject: "x", number: "RK69 JC3F 95C0", refusal: { code: "tag-not-scanned-back" } },
  { code: "position-taken", subject: "x", position: "left", by: "RK69 JC3F 95C0" },
  { code: "unknown-position", subject: "x", position: "top", known: ["left", "right"] },
  { code: "hold-not-standing", subject: "shell" },
  { code: "not-yours-to-lift", subject: "shell", hold: "evidence", who: "program manager" },
  { code: "cannot-correct", subject: "shell", why: "corrected already" },
  { code: "repeated-id" },
  { code: "closed", subject: "x", what: "place" },
  { code: "role", needs: ["technician", "inspector"] },
  { code: "nothing-to-do" },
];

describe("refusals in words", () => {
  it.each(ONE_OF_EACH)("say what and next of $code, and blame nobody", (refusal) => {
    const reason = sayRefusal(refusal, speaker);
    expect(reason.what).toMatch(/^[A-Z].*\.$/);
    expect(reason.next).toMatch(/^[a-z].*\.$/);
    const said = [reason.what, reason.why, reason.next].join(" ");
    expect(said).not.toMatch(/please|oops|error|invalid|success|!|\bsafe\b|\bclean\b|undefined|null/i);
  });

  it("tell a difference with every reason at once and what to do", () => {
    const reason = sayRefusal(
      {
        code: "labels",
        subject: "liner",
        shell: "shell",
        verdict: "differs",
        reasons: [
          { code: "takes-another", takes: ["LK-2"], is: "LK-3", said: "model-table" },
          { code: "size-differs", outer: "46 32 R", inner: "44 32 R" },
        ],
      },
      speaker,
    );
    expect(reason).toEqual({
      mark: "differs",
      what: "Coat liner HJ9V 2939 03KX differs from its shell.",
      why: "Liner code: takes LK-2, is LK-3 (by the model table). Size: shell 46 32 R, layer 44 32 R.",
      next: "take it out and scan another.",
    });
  });

  it("tell a hold with its kind, who placed it and who lifts it", () => {
    const held = sayRefusal(
      { code: "held", subject: "shell", hold: "contamination", since: 0, by: "o" },
      speaker,
    );
    expect(held.what).toBe("Coat shell C7K3 F92C XTKK is on hold: contamination.");
    expect(held.why).toBe("Odile Verrill placed it, 12 Nov. A program manager lifts it.");
    expect(held.mark).toBe("hold");
  });

  it("count their reasons in the head and on the confirm", () => {
    expect(refusalHead("Not issued.", 2)).toBe("Not issued. Two reasons.");
    expect(refusalHead("Not moved.", 1)).toBe("Not moved. One reason.");
    expect(blockedConfirm("Issue", 2)).toBe("Issue: 2 reasons");
  });

  it("are read aloud whole", () => {
    const reasons = [sayRefusal({ code: "layer-missing", subject: "shell", layerKind: "drd" }, speaker)];
    expect(spokenRefusal(refusalHead("Not issued.", 1), reasons, W)).toBe(
      "Not issued. One reason. Coat shell C7K3 F92C XTKK has no DRD. Next: scan one, or clear the tray.",
    );
  });
});

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

  it("ask for the label when it was not read, and for the word when nothing else settles it", () => {
    expect(nextForReasons([{ code: "label-not-read", side: "inner" }])).toBe(
      "read the label and type it in.",
    );
    expect(sayLabelReason({ code: "field-unknown", field: "size", side: "inner" }, W)).toBe(
      "The size on the layer’s label is not recorded.",
    );
    expect(nextForReasons([{ code: "field-unknown", field: "size", side: "inner" }])).toContain(
      "maker’s word",
    );
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
});
