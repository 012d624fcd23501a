import { expect, test } from "vitest";
import type { PlaceId } from "../../../server/domain/ids.ts";
import type { PlaceBrief } from "../../../server/domain/scan-answer.ts";
import { insideOf, inTreeOrder } from "./place-tree.ts";

function aPlace(name: string, within?: string): PlaceBrief {
  return {
    ...{ id: name as PlaceId, name, what: "rack", carries: "shared", closed: false },
    ...(within ? { within: { kind: "place", id: within as PlaceId, name: within } } : {}),
  };
}
const names = (places: readonly PlaceBrief[]) => places.map(({ name }) => name);

test("each place is followed by what is within it, racks in the order of their numbers", () => {
  const places = [
    aPlace("Rack 10", "Cage"),
    aPlace("Station 2"),
    aPlace("Rack 9", "Cage"),
    aPlace("Cage"),
    aPlace("Bin 1", "Rack 9"),
  ];
  expect(names(inTreeOrder(places))).toEqual(["Cage", "Rack 9", "Bin 1", "Rack 10", "Station 2"]);
});

test("a place whose outer place is not on the list stands by itself", () => {
  expect(names(inTreeOrder([aPlace("Rack 1", "Closed cage")]))).toEqual(["Rack 1"]);
});

test("places that are within each other in a ring are listed once and walked once", () => {
  const ring = [aPlace("B", "A"), aPlace("A", "B"), aPlace("C", "A")];
  expect(names(inTreeOrder(ring)).sort()).toEqual(["A", "B", "C"]);
  expect(names(insideOf("A", ring))).toEqual(["B", "C"]);
});
