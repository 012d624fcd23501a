import { expect, test } from "vitest";
import { words } from "../../look/words.ts";
import { stateWords } from "./state-words.ts";

const IN_ORDER = { isHeld: false, soiled: false, labelReading: "read" } as const;

test("a piece in order has nothing said of it, and one that is not has all of it said", () => {
  const say = words("US");
  expect(stateWords(IN_ORDER, say)).toEqual([]);
  expect(
    stateWords(
      { isHeld: true, soiled: true, labelReading: "not legible", retiredAt: "2026-01-01T00:00:00Z" },
      say,
    ),
  ).toEqual(["Retired", "On hold", "Soiled", "Label not legible"]);
});
