import { expect, test } from "vitest";
import { idOfLabel, labelOfId } from "./name-lists.ts";

const NAMES = [
  { id: "1", label: "Rack 1, Gear cage" },
  { id: "2", label: "Rack 1, Station 2" },
  { id: "3", label: "Corwin Bask, 214" },
  { id: "4", label: "Gear cage" },
];

test("a name is taken when it is the only one, by itself or by its number", () => {
  expect(idOfLabel("corwin bask", NAMES)).toBe("3");
  expect(idOfLabel(" 214 ", NAMES)).toBe("3");
  expect(idOfLabel("Rack 1, Station 2", NAMES)).toBe("2");
  expect(idOfLabel("gear cage", NAMES)).toBe("4");
});

test("a name that two have, or nobody, is not guessed", () => {
  expect(idOfLabel("Rack 1", NAMES)).toBeUndefined();
  expect(idOfLabel("Rack", NAMES)).toBeUndefined();
  expect(idOfLabel("Petra", NAMES)).toBeUndefined();
});

test("no text searches without it, and an id is shown by its name", () => {
  expect(idOfLabel("  ", NAMES)).toBe("");
  expect(labelOfId("2", NAMES)).toBe("Rack 1, Station 2");
  expect(labelOfId("9", NAMES)).toBe("");
});
