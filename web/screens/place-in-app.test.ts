import { expect, test } from "vitest";
import { placeOf } from "./place-in-app.ts";

test("an address opens the screen that it names, and nothing else", () => {
  expect(placeOf("/", "")).toEqual({ screen: "bench" });
  expect(placeOf("/link", "#abc")).toEqual({ screen: "link", token: "abc" });
  expect(placeOf("/pieces/1", "")).toEqual({ screen: "trail", piece: "1" });
  expect(placeOf("/pieces/1/describe", "")).toEqual({ screen: "describe", piece: "1" });
  expect(placeOf("/members/2", "")).toEqual({ screen: "member", member: "2" });
  expect(placeOf("/machines/3", "")).toEqual({ screen: "machine", machine: "3" });
  expect(placeOf("/find", "")).toEqual({ screen: "find" });
  expect(placeOf("/find/more", "")).toEqual({ screen: "nowhere" });
});
