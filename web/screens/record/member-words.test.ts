import { expect, test } from "vitest";
import type { MemberId } from "../../../server/domain/ids.ts";
import type { MemberBrief } from "../../../server/domain/scan-answer.ts";
import type { LocalDate } from "../../../server/domain/time.ts";
import { memberLine, membersBy } from "./member-words.ts";

function aMember(number: string, name?: string, more: Partial<MemberBrief> = {}): MemberBrief {
  return { id: number as MemberId, number, ...(name ? { name } : {}), ...more };
}
const LEFT = { leftOn: "2025-02-01" as LocalDate };
const ALL = [
  aMember("214", "Corwin Bask"),
  aMember("90", undefined),
  aMember("31", "Aldous Pennark", LEFT),
  aMember("118", "Mirela Ferro"),
];
const found = (text: string) => membersBy(ALL, text).map(({ number }) => number);

test("members stand by name, those without a name after them, those who left last", () => {
  expect(found("")).toEqual(["214", "118", "90", "31"]);
});

test("a member is found by parts of name or number in any order", () => {
  expect(found("bask cor")).toEqual(["214"]);
  expect(found(" 18 ")).toEqual(["118"]);
  expect(found("nobody")).toEqual([]);
});

test("a member's line says number, station, shift and the last day, as far as they are known", () => {
  const station = { kind: "place", name: "Station 2" } as const;
  expect(memberLine(aMember("118", "Mirela Ferro", { station, shift: "B" }))).toBe(
    "number 118, Station 2, shift B",
  );
  expect(memberLine(aMember("31", "Aldous Pennark", LEFT))).toBe("number 31, left on 1 February 2025");
});
