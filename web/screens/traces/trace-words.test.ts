import { expect, test } from "vitest";
import type { TraceContact } from "../../../server/domain/tracing/trace-view.ts";
import { callInList, isSettled } from "./trace-words.ts";

function contact(given: object): TraceContact {
  return { nowWith: { kind: "member", name: "Member 0214" }, ...given } as TraceContact;
}
const found = { outcome: "found", at: "2026-03-01T10:00:00.000Z", by: { kind: "account", name: "Inez" } };

test("a contact that was seen after it was not found is not settled", () => {
  expect(isSettled(contact({ outcome: { ...found, outcome: "not found" } }))).toBe(true);
  expect(isSettled(contact({ outcome: { ...found, seenSince: "2026-03-02T10:00:00.000Z" } }))).toBe(false);
  expect(isSettled(contact({}))).toBe(false);
});

test("only what members have without an outcome is called in, by station and then shift", () => {
  const station = (name: string) => ({ kind: "place", name });
  const listed = callInList([
    contact({ rank: 1, station: station("Station 7"), shift: "B" }),
    contact({ rank: 2, station: station("Station 2"), shift: "B" }),
    contact({ rank: 3, station: station("Station 2"), shift: "A" }),
    contact({ rank: 4, station: station("Station 2"), shift: "A", outcome: found }),
    contact({ rank: 5, nowWith: { kind: "place", name: "Rack B2" } }),
    contact({ rank: 6 }),
  ]);
  expect(listed.map((group) => [group.station, group.shift, group.contacts.map(({ rank }) => rank)])).toEqual(
    [
      ["Station 2", "A", [3]],
      ["Station 2", "B", [2]],
      ["Station 7", "B", [1]],
      ["Without a station", undefined, [6]],
    ],
  );
});
