import { describe, expect, it } from "vitest";
import type { Refusal, RefusalCode } from "../../server/domain/refusal.ts";
import { REFUSAL_STATUS, statusOfRefusals } from "../../server/http/refusal-status.ts";

/** What each code must answer, written down apart from the table: by what RFC 9110 section 15.5 says of the status. */
const EXPECTED: readonly (readonly [number, string, readonly RefusalCode[]])[] = [
  [403, "is somebody else's to do", ["role", "not-yours-to-lift", "seen-at-event"]],
  [404, "names what is not on record", ["unknown-subject", "unknown-contaminant"]],
  [
    409,
    "stands against what is recorded now",
    [
      ...(["changed", "retired", "held", "soiled", "label-not-read", "labels", "layer-missing"] as const),
      ...(["fitted-elsewhere", "left-inside", "not-fitted-there", "place-in-shell-taken"] as const),
      ...(["already-there", "does-not-fit-the-record", "serial-taken", "name-taken", "code-bound"] as const),
      ...(["tag", "position-taken", "hold-not-standing", "cannot-correct", "repeated-id"] as const),
      ...(["closed", "not-empty", "last-manager", "holds-nothing"] as const),
      ...(["not-on-the-list", "without-outcome", "nothing-to-trace"] as const),
      ...(["washed-apart", "shells-and-liners", "not-so-cleaned", "load-too-large", "over-limits"] as const),
      ...(["no-programme", "machine-there", "machine-faulty", "load-running", "load-over"] as const),
      ...(["ended-early", "moved-between", "not-there", "to-a-specialist", "shares-no-load"] as const),
    ],
  ],
  [
    422,
    "could not be so at any time",
    [
      ...(["not-a-shell", "not-a-layer", "in-the-future", "unknown-position", "nothing-to-do"] as const),
      ...(["ends-before-it-begins", "length-unknown", "reason-needed", "not-a-bag"] as const),
    ],
  ],
];
const rows = EXPECTED.flatMap(([status, why, codes]) => codes.map((code) => [code, status, why] as const));

describe("the status of a refused act", () => {
  it("is written down for every code, once", () => {
    expect(rows.map(([code]) => code).sort()).toEqual(Object.keys(REFUSAL_STATUS).sort());
  });

  it.each(rows)("%s answers %i, since it %s", (code, status) => {
    expect(statusOfRefusals([{ code } as Refusal])).toBe(status);
  });

  it("of several reasons is that of the one which only another person can change", () => {
    const refusals = [
      { code: "soiled" },
      { code: "role" },
      { code: "unknown-subject" },
    ] as unknown as Refusal[];
    expect(statusOfRefusals(refusals)).toBe(403);
    expect(statusOfRefusals(refusals.slice(2).concat(refusals.slice(0, 1)))).toBe(404);
  });
});
