import { expect, test } from "vitest";
import type { StayView, TrailView } from "../../../server/domain/page-views.ts";
import type { Named } from "../../../server/domain/piece-view.ts";
import { leadOf, sayPosition } from "./lead-words.ts";

const CLOCK = { now: Date.parse("2026-11-24T15:15:00Z"), timeZone: "America/New_York" };
const RACK: Named = { kind: "place", name: "Rack C1", detail: "Gear cage" };

function aStay(holder: Named, from: string, to?: string): StayView {
  return {
    ...{ holder, from, evidence: "scanned", isGap: holder.kind === "whereabouts unknown", fromVersion: 1 },
    ...(to ? { to } : {}),
  };
}

function aView(changes: {
  piece?: object;
  stays?: StayView[];
  changed?: number;
  knownAt?: number;
}): TrailView {
  const piece = {
    kind: { code: "coat-liner", name: "Coat liner", family: "structural", layer: "liner" },
    label: { maker: "Tarnholt", modelName: "K7", linerCode: "LK-3", size: "44 32 R", madeOn: "2023-08" },
    ...{ labelReading: "read", tags: [], holds: [], ...changes.piece },
  };
  const changed = Array.from({ length: changes.changed ?? 0 }, () => ({ code: "hash-differs" }));
  return {
    piece,
    stays: changes.stays ?? [aStay(RACK, "2025-03-04T15:00:00Z")],
    checked: { entries: 31, at: "2026-11-24T15:15:00Z", changed },
    ...(changes.knownAt
      ? { knownAt: { position: changes.knownAt, recordedAt: "2026-01-01T00:00:00Z" } }
      : {}),
    ...{ fittings: [], entries: [], names: { m: { kind: "member", name: "Mirela Ferro" } } },
  } as unknown as TrailView;
}
const lead = (changes: Parameters<typeof aView>[0]) => leadOf(aView(changes), CLOCK);

test("a lay reader is told what it is, since when it is on record, where it is, and that nothing was changed", () => {
  expect(lead({})).toBe(
    "Made by Tarnholt in August 2023: model K7, liner LK-3, size 44\u00a032\u00a0R. " +
      "On record since 4 March 2025, first at Rack C1 in Gear cage. " +
      "Today it is at Rack C1 in Gear cage, since Tue 4 Mar 2025, 10:00. " +
      "31 entries, none changed since it was written (checked today, 10:15).",
  );
});

test("what is not known is said and not left to be guessed", () => {
  expect(lead({ piece: { label: {}, labelReading: "not yet read" } })).toMatch(
    /^The maker is not recorded\. Its maker’s label is not yet read\./,
  );
  const gone = aStay({ kind: "whereabouts unknown", name: "whereabouts unknown" }, "2026-06-14T15:00:00Z");
  expect(lead({ stays: [aStay(RACK, "2025-03-04T15:00:00Z", gone.from), gone] })).toContain(
    "Nobody has recorded where it is since Sun 14 Jun, 11:00.",
  );
});

test("a record that was changed is never called unchanged", () => {
  expect(lead({ changed: 1 })).not.toMatch(/changed/);
});

test("as known at a position the sentences stand in the past and claim nothing of today", () => {
  const then = lead({ knownAt: 5, piece: { assignment: { member: "m", set: "front-line set" } } });
  expect(then).toContain("It was then at Rack C1 in Gear cage");
  expect(then).toContain("It belonged to Mirela Ferro, front-line set.");
  expect(then).not.toMatch(/[Tt]oday/);
});

test("a position is written with its thousands apart", () => {
  expect([7, 1204, 3000000].map(sayPosition)).toEqual(["7", "1,204", "3,000,000"]);
});
