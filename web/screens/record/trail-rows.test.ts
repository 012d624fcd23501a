import { expect, test } from "vitest";
import type { PieceId, Uuid } from "../../../server/domain/ids.ts";
import type { StayView, TrailEntry } from "../../../server/domain/page-views.ts";
import type { Instant } from "../../../server/domain/time.ts";
import { trailGroups, trailRows } from "./trail-rows.ts";

const NOW = Date.parse("2026-11-24T12:00:00Z");

function anEntry(version: number, at: string): TrailEntry {
  return {
    ...{ subjectKind: "piece", subject: "p" as PieceId, version },
    ...{ act: `act ${version}` as Uuid, command: "recordCleaning", device: "bench" },
    entry: {
      ...{ kind: "PieceCleaned", how: "advanced cleaning" },
      ...{ at: Date.parse(at) as Instant, evidence: "scanned" },
    },
    ...{ at, recordedAt: at, position: 100 + version },
    by: { kind: "account", name: "Inez Calloway", detail: "technician" },
  };
}

function aGap(from: string, to: string): StayView {
  return {
    holder: { kind: "whereabouts unknown", name: "whereabouts unknown" },
    ...{ from, to, evidence: "scanned", isGap: true, fromVersion: 3, toVersion: 3 },
  };
}

function told(order: "newest first" | "oldest first", entries: TrailEntry[], stays: StayView[] = []) {
  const groups = trailGroups(trailRows(entries, stays, NOW), "UTC", order);
  return groups.map(({ head, rows }) => [
    head,
    rows.map((row) => (row.what === "gap" ? "gap" : row.entry.version)),
  ]);
}

test("entries stand under their months, newest first or oldest first, whatever order they come in", () => {
  const entries = [
    anEntry(2, "2026-11-02T08:00:00Z"),
    anEntry(1, "2026-09-01T08:00:00Z"),
    anEntry(3, "2026-11-20T08:00:00Z"),
  ];
  expect(told("newest first", entries)).toEqual([
    ["November 2026", [3, 2]],
    ["September 2026", [1]],
  ]);
  expect(told("oldest first", entries)).toEqual([
    ["September 2026", [1]],
    ["November 2026", [2, 3]],
  ]);
});

test("a late record stands where it happened, not where it was written", () => {
  const late = { ...anEntry(9, "2026-09-05T08:00:00Z"), recordedAt: "2026-11-24T08:00:00Z" };
  expect(told("newest first", [late, anEntry(8, "2026-10-05T08:00:00Z")])).toEqual([
    ["October 2026", [8]],
    ["September 2026", [9]],
  ]);
});

test("of two entries of one minute the one recorded later stands as the later one", () => {
  const at = "2026-11-02T08:00:00Z";
  expect(told("newest first", [anEntry(4, at), anEntry(5, at)])).toEqual([["November 2026", [5, 4]]]);
});

test("a gap stands before the finding that ended it and joins the months that it spans", () => {
  const entries = [
    anEntry(1, "2026-03-10T08:00:00Z"),
    anEntry(2, "2026-06-14T08:00:00Z"),
    anEntry(3, "2026-07-02T07:55:00Z"),
  ];
  const gap = aGap("2026-06-14T08:00:00Z", "2026-07-02T07:55:00Z");
  expect(told("newest first", entries, [gap])).toEqual([
    ["June and July 2026", [3, "gap", 2]],
    ["March 2026", [1]],
  ]);
});

test("a gap longer than that stands in the month that ended it, and swallows no entries", () => {
  const entries = [anEntry(1, "2025-12-01T08:00:00Z"), anEntry(2, "2026-01-20T08:00:00Z")];
  const gap = aGap("2025-12-01T08:00:00Z", "2026-02-03T08:00:00Z");
  expect(told("oldest first", [...entries, anEntry(3, "2026-02-03T08:00:00Z")], [gap])).toEqual([
    ["December 2025", [1]],
    ["January 2026", [2]],
    ["February 2026", ["gap", 3]],
  ]);
});

test("a piece that an entry itself moved to whereabouts unknown has no gap: the entry says it", () => {
  const stay = { ...aGap("2026-09-01T08:00:00Z", "2026-09-05T08:00:00Z"), toVersion: 4 };
  expect(told("newest first", [], [stay])).toEqual([]);
});
