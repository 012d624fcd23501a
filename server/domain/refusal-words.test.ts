import { describe, expect, it } from "vitest";
import type { Uuid } from "./ids.ts";
import type { Refusal, RefusalCode } from "./refusal.ts";
import { type Phrase, phraseRefusal, sayPhrase } from "./refusal-words.ts";
import type { Instant } from "./time.ts";

const [liner, shell, other, rack, person] = ["a", "b", "c", "d", "e"] as unknown as readonly Uuid[] as [
  Uuid,
  Uuid,
  Uuid,
  Uuid,
  Uuid,
];
const names = {
  [liner]: "coat liner HJ9V 2939 03KX",
  [shell]: "coat shell C7K3 F92C XTKK",
  [other]: "coat liner KD0R T429 TH33",
  [rack]: "Rack C1",
  [person]: "Corwin Bask",
};
const at = Date.parse("2025-11-12T02:10:00Z") as Instant;
const onRack = { kind: "place", id: rack } as unknown as { kind: "in transit" };
const IN_TRANSIT = { kind: "in transit" } as const;

/** One refusal of every code; a new code does not compile until it stands here. */
const EACH: { readonly [Code in RefusalCode]: Extract<Refusal, { code: Code }> } = {
  "unknown-subject": { code: "unknown-subject", subject: liner, what: "piece" },
  changed: { code: "changed", subject: liner, what: "holder", was: onRack, is: IN_TRANSIT },
  retired: { code: "retired", subject: liner, at },
  held: { code: "held", subject: shell, hold: "contamination", since: at, by: person, version: 3 },
  soiled: { code: "soiled", subject: liner },
  "label-not-read": { code: "label-not-read", subject: liner },
  "fitted-elsewhere": { code: "fitted-elsewhere", subject: liner, shell },
  "left-inside": { code: "left-inside", subject: liner, shell },
  "not-fitted-there": { code: "not-fitted-there", subject: liner, shell },
  "place-in-shell-taken": { code: "place-in-shell-taken", subject: liner, shell, by: other },
  "not-a-shell": { code: "not-a-shell", subject: liner, kind: "coat liner" },
  "not-a-layer": { code: "not-a-layer", subject: shell, kind: "helmet" },
  labels: {
    code: "labels",
    subject: liner,
    shell,
    verdict: "differs",
    reasons: [
      { code: "takes-another", takes: ["LK-2"], is: "LK-3", said: "model-table" },
      { code: "size-differs", outer: "46 32 R", inner: "44 32 R" },
    ],
  },
  "layer-missing": { code: "layer-missing", subject: shell, layerKind: "drd" },
  "already-there": { code: "already-there", subject: liner, holder: onRack },
  "in-the-future": { code: "in-the-future", at, now: (at - 3_600_000) as Instant },
  "does-not-fit-the-record": {
    code: "does-not-fit-the-record",
    subject: liner,
    fault: { code: "holder-differs", version: 4, at, stated: onRack, recorded: IN_TRANSIT },
    offers: ["found here", "correction"],
  },
  "serial-taken": { code: "serial-taken", subject: liner, by: other, serial: "S-100" },
  "name-taken": { code: "name-taken", what: "place", name: "Rack C1" },
  "code-bound": { code: "code-bound", text: "12345678", by: liner },
  tag: { code: "tag", subject: liner, number: "HJ9V293903KX", refusal: { code: "tag-not-scanned-back" } },
  "position-taken": { code: "position-taken", subject: liner, position: "main", by: "C7K3F92CXTKK" },
  "unknown-position": {
    code: "unknown-position",
    subject: liner,
    position: "left",
    known: ["main", "second"],
  },
  "ends-before-it-begins": { code: "ends-before-it-begins", from: at, to: (at - 60_000) as Instant },
  "not-on-the-list": { code: "not-on-the-list", subject: liner, trace: other },
  "reason-needed": { code: "reason-needed", outcome: "cleared" },
  "without-outcome": { code: "without-outcome", subject: other, pieces: 2 },
  "nothing-to-trace": { code: "nothing-to-trace" },
  "not-a-bag": { code: "not-a-bag", subject: rack },
  "holds-nothing": { code: "holds-nothing", subject: person },
  "unknown-contaminant": { code: "unknown-contaminant", kind: "paint" },
  "seen-at-event": { code: "seen-at-event", subject: liner, event: other, evidence: "scanned" },
  "washed-apart": { code: "washed-apart", subject: liner, shell },
  "shells-and-liners": { code: "shells-and-liners", subject: rack, shells: 3, liners: 1 },
  "not-so-cleaned": { code: "not-so-cleaned", subject: liner, why: "by hand" },
  "load-too-large": { code: "load-too-large", subject: rack, garments: 8, most: 5 },
  "over-limits": {
    code: "over-limits",
    subject: rack,
    programme: "Hot",
    over: [{ what: "temperature", is: "120 °F", limit: "105 °F" }],
  },
  "to-a-specialist": { code: "to-a-specialist", subject: liner, event: other, kinds: ["asbestos"] },
  "shares-no-load": { code: "shares-no-load", subject: liner, event: other, kinds: ["drugs"] },
  "no-programme": { code: "no-programme", subject: rack },
  "machine-there": { code: "machine-there", subject: rack, by: other },
  "machine-faulty": { code: "machine-faulty", subject: rack, since: at },
  "load-running": { code: "load-running", subject: rack, since: at },
  "load-over": { code: "load-over", subject: rack, at },
  "ended-early": { code: "ended-early", subject: rack, since: at, minutes: 45 },
  "length-unknown": { code: "length-unknown", subject: rack },
  "moved-between": { code: "moved-between", subject: liner, holder: onRack, at },
  "not-there": { code: "not-there", subject: liner, holder: onRack, was: IN_TRANSIT, at },
  "hold-not-standing": { code: "hold-not-standing", subject: liner, version: 2 },
  "not-yours-to-lift": {
    code: "not-yours-to-lift",
    subject: liner,
    hold: "evidence",
    who: "program manager",
  },
  "cannot-correct": { code: "cannot-correct", subject: liner, version: 5, why: "corrected already" },
  "repeated-id": { code: "repeated-id", act: liner },
  closed: { code: "closed", subject: rack, what: "place" },
  "not-empty": { code: "not-empty", subject: rack, pieces: 39 },
  "last-manager": { code: "last-manager", subject: person },
  role: { code: "role", needs: ["inspector", "program manager"] },
  "nothing-to-do": { code: "nothing-to-do" },
};
const say = (refusal: Refusal) => sayPhrase(phraseRefusal(refusal, names));

describe("what a refusal says", () => {
  it("says a difference with both values, and what to do (look guide, section 5)", () => {
    expect(say(EACH.labels)).toBe(
      "Differs. Coat liner HJ9V 2939 03KX does not belong in coat shell C7K3 F92C XTKK. " +
        "Model or liner code: takes LK-2, is LK-3. Size: 46 32 R, 44 32 R. " +
        "Next: take it out and scan the one that belongs here, or record the maker's word.",
    );
  });

  it("names a missing layer as people do, not by its kind's code", () => {
    const without = (layerKind: string): string =>
      phraseRefusal({ code: "layer-missing", subject: shell, layerKind }, names).why;
    expect(without("coat-liner")).toBe("It has no coat liner.");
    expect(without("proximity-drd")).toBe("It has no proximity DRD.");
  });

  it("says since when and by whom a piece is out of service", () => {
    expect(say(EACH.held)).toBe(
      "Coat shell C7K3 F92C XTKK is out of service: contamination. Since 12 Nov 2025 02:10 UTC, placed by Corwin Bask. " +
        "Next: leave it out of use until the program manager lifts the hold.",
    );
  });

  it("says the old and the new holder when another bench was first", () => {
    expect(say(EACH.changed)).toBe(
      "Coat liner HJ9V 2939 03KX has changed meanwhile. It was at Rack C1; now it is in transit. " +
        "Next: look it up, then confirm again.",
    );
  });

  it("writes instants as the department's clock has them, where it is given", () => {
    const phrase = phraseRefusal(EACH.retired, names, () => "Tue 11 Nov, 21:10");
    expect(phrase.why).toBe("Since Tue 11 Nov, 21:10.");
  });

  it.each(Object.values(EACH).map((refusal) => [refusal.code, refusal] as const))(
    "says what, why and what next of %s, without an internal word or a bare id",
    (_, refusal) => {
      const phrase: Phrase = phraseRefusal(refusal, names);
      for (const part of [phrase.what, phrase.why]) expect(part).toMatch(/^\p{Lu}.*[.]$/u);
      expect(phrase.next).toMatch(/^\p{Ll}.*[^.]$/u);
      expect(sayPhrase(phrase)).not.toMatch(
        /undefined|null|\[object|not named|error|invalid|please|!|\bsafe\b/i,
      );
    },
  );

  it("says plainly that a name is not at hand", () => {
    expect(phraseRefusal(EACH.soiled, {}).what).toBe("One that is not named here awaits wash.");
  });
});
