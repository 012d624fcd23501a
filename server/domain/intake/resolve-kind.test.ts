import { expect, test } from "vitest";
import { STANDARD_KINDS } from "../register/standard-kinds.ts";
import { kindReader } from "./resolve-kind.ts";

const read = kindReader(STANDARD_KINDS);

test("each standard kind is read by its code and by its name, in any case", () => {
  for (const { code, name } of STANDARD_KINDS) {
    expect(read(code)).toEqual({ kind: code });
    expect(read(name.toUpperCase())).toEqual({ kind: code });
  }
});

test.each([
  ["Coat - Outer Shell", "coat-shell"],
  ["Outer shell, coat", "coat-shell"],
  ["Turnout jacket shell", "coat-shell"],
  ["Tunic lining", "coat-liner"],
  ["Trouser liner", "pants-liner"],
  ["Bunker pant shells", "pants-shell"],
  ["Drag Rescue Device", "drd"],
  ["Structural helmet", "helmet"],
  ["Pair of gloves", "glove-pair"],
  ["Boots", "boot-pair"],
  ["Balaclava", "hood"],
])("US and international words (common practice): %s is %s", (text, kind) => {
  expect(read(text)).toEqual({ kind });
});

test("a coat alone may be a shell or a liner and is never guessed", () => {
  const answer = read("Coat");
  expect("mayBe" in answer && answer.mayBe).toEqual(expect.arrayContaining(["Coat shell", "Coat liner"]));
});

test.each(["Ladder", "", "outer", "coat shell helmet"])("%s is like no kind", (text) => {
  expect(read(text)).toEqual({ mayBe: [] });
});
