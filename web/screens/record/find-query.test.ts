import fc from "fast-check";
import { expect, test } from "vitest";
import { EMPTY_QUERY, type FindQuery, isSameQuery, queryAddress, queryFromAddress } from "./find-query.ts";

test("an address opens the search that it was written from, whatever was typed", () => {
  const text = fc.string({ unit: "grapheme" }).filter((typed) => typed.isWellFormed());
  const query = fc.record<FindQuery>({
    ...{ q: text, kind: text, holder: text, member: text },
    ...{ model: text, size: text, state: text, lastSeenBefore: text },
  });
  fc.assert(
    fc.property(query, (searched) => isSameQuery(queryFromAddress(queryAddress(searched)), searched)),
  );
});

test("nothing searched makes no address, and an unknown part of one searches nothing", () => {
  expect(queryAddress(EMPTY_QUERY)).toBe("");
  expect(queryAddress({ ...EMPTY_QUERY, q: "  " })).toBe("");
  expect(queryFromAddress("?colour=red")).toEqual(EMPTY_QUERY);
  expect(queryAddress({ ...EMPTY_QUERY, lastSeenBefore: "2026-03-01", size: "46 32 R" })).toBe(
    "?size=46+32+R&last-seen-before=2026-03-01",
  );
});
