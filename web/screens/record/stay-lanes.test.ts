import { expect, test } from "vitest";
import type { StayView } from "../../../server/domain/page-views.ts";
import type { Named } from "../../../server/domain/piece-view.ts";
import { RECORD_WORDS } from "../../look/words-record.ts";
import { stayLanes, ticksBetween } from "./stay-lanes.ts";

const at = (text: string) => Date.parse(text);
const NOW = at("2026-11-24T12:00:00Z");
const rack = (name: string, detail?: string): Named => ({
  ...{ kind: "place", name },
  ...(detail ? { detail } : {}),
});
const MIRELA: Named = { kind: "member", name: "Mirela Ferro", detail: "118" };

function aStay(holder: Named, from: string, to?: string, version = 1): StayView {
  const end = to ? { to, toVersion: version + 1 } : {};
  return { holder, from, evidence: "scanned", isGap: false, fromVersion: version, ...end };
}
const lanesOf = (stays: StayView[]) => {
  const { lanes, stays: laid } = stayLanes(stays, NOW, "UTC", RECORD_WORDS);
  return { names: lanes.map(({ name }) => name), on: laid.map(({ lane }) => lane) };
};

test("racks of one cage share its lane, members share one, and the lane without a record comes last", () => {
  const gap = { ...aStay({ kind: "whereabouts unknown", name: "" }, "2026-06-01T00:00:00Z"), toVersion: 1 };
  const { names, on } = lanesOf([
    aStay(rack("Rack B2", "gear cage"), "2026-01-01T00:00:00Z", "2026-02-01T00:00:00Z"),
    aStay(MIRELA, "2026-02-01T00:00:00Z", "2026-06-01T00:00:00Z"),
    { ...gap, to: "2026-07-01T00:00:00Z" },
    aStay(rack("Rack C1", "gear cage"), "2026-07-01T00:00:00Z"),
  ]);
  expect(names).toEqual(["With a member", "In gear cage", "Not recorded"]);
  expect(on[0]).toBe(on[3]);
});

test("more places than one can compare share one lane", () => {
  const stays = ["A", "B", "C", "D", "E"].map((name, index) =>
    aStay(rack(`Rack ${name}`), `2026-0${index + 1}-01T00:00:00Z`, `2026-0${index + 2}-01T00:00:00Z`),
  );
  expect(lanesOf(stays).names).toEqual(["At a place"]);
});

test("a gap is labelled with its length, a lasting stay only with a name too long to stand at its end", () => {
  const { stays } = stayLanes(
    [
      aStay(MIRELA, "2026-02-01T00:00:00Z", "2026-06-14T00:00:00Z"),
      {
        ...aStay({ kind: "whereabouts unknown", name: "" }, "2026-06-14T00:00:00Z", "2026-07-02T00:00:00Z"),
        toVersion: 1,
      },
      aStay(rack("Rack C2"), "2026-07-02T00:00:00Z"),
    ],
    ...([NOW, "UTC", RECORD_WORDS] as const),
  );
  expect(stays.map(({ label }) => label)).toEqual(["Mirela Ferro", "18 days", undefined]);
  const lasting = stayLanes([aStay(MIRELA, "2026-02-01T00:00:00Z")], NOW, "UTC", RECORD_WORDS);
  expect(lasting.stays.map(({ label }) => label)).toEqual(["Mirela Ferro"]);
});

test("a ruler has at most eight ticks, and says the year where it changes", () => {
  const ticks = ticksBetween(at("2025-03-01T00:00:00Z"), NOW, "UTC");
  expect(ticks.map(({ label }) => label)).toEqual([
    ...["Apr 2025", "Jul", "Oct", "Jan 2026", "Apr", "Jul", "Oct"],
  ]);
  for (const years of [0.01, 0.1, 0.5, 1, 3, 7, 15]) {
    const count = ticksBetween(NOW - years * 365 * 86_400_000, NOW, "UTC").length;
    expect(count).toBeGreaterThan(0);
    expect(count).toBeLessThanOrEqual(9);
  }
});

test("a day begins on the ruler when it begins at the department", () => {
  const ticks = ticksBetween(at("2026-11-22T00:00:00Z"), at("2026-11-24T12:00:00Z"), "America/New_York");
  expect(ticks).toEqual([
    { at: at("2026-11-22T05:00:00Z"), label: "22 Nov" },
    { at: at("2026-11-23T05:00:00Z"), label: "23 Nov" },
    { at: at("2026-11-24T05:00:00Z"), label: "24 Nov" },
  ]);
});

test("a piece that came this hour has a tick all the same, and room for its thread", () => {
  const input = stayLanes(
    [aStay(rack("Rack C1"), "2026-11-24T11:59:00Z")],
    NOW,
    "America/New_York",
    RECORD_WORDS,
  );
  expect(input.ticks).toEqual([{ at: at("2026-11-24T11:59:00Z"), label: "24 Nov" }]);
  expect(input.now).toBeGreaterThan(input.start);
});
