import { describe, expect, test } from "vitest";
import { acceptsCleaning, asksFor, notSet, ruleOf } from "./contaminant-rule.ts";
import { rulesInForce, STARTING_CONTAMINANTS } from "./starting-contaminants.ts";

const rule = (code: string) => ruleOf(STARTING_CONTAMINANTS, code);

test("a department starts with the eight kinds, each value with its source", () => {
  expect(STARTING_CONTAMINANTS.map(({ code }) => code)).toEqual([
    "fire-products",
    "blood-or-body-fluid",
    "asbestos",
    "drugs",
    "chemical",
    "pests",
    "cbrn",
    "unknown",
  ]);
  for (const { asks, endedBy } of STARTING_CONTAMINANTS) {
    for (const value of [...Object.values(asks), endedBy]) expect(value.source).not.toBe("");
  }
});

describe("what may be computed at the start (facts.md 3.3)", () => {
  test("advanced cleaning ends fire products: the 2020 revision, by a committee member's article (S29)", () => {
    expect(acceptsCleaning(rule("fire-products"), "advanced cleaning")).toBe("yes");
    expect(acceptsCleaning(rule("fire-products"), "preliminary exposure reduction")).toBe("no");
  });

  test("asbestos and drugs are kept out of loads with others (S71, S74)", () => {
    expect(asksFor(rule("asbestos"), "share a load")).toBe("no");
    expect(asksFor(rule("drugs"), "share a load")).toBe("no");
  });

  test("no cleaning ends CBRN or an unusual chemical: a specialist decides (S54, S78)", () => {
    expect(acceptsCleaning(rule("cbrn"), "specialised cleaning")).toBe("no");
    expect(acceptsCleaning(rule("chemical"), "specialised cleaning")).toBe("no");
  });

  test("nothing follows from a value without a source: the department sets it", () => {
    expect(asksFor(rule("fire-products"), "share a load")).toBe("not set");
    expect(acceptsCleaning(rule("blood-or-body-fluid"), "specialised cleaning")).toBe("not set");
    expect(notSet(rule("unknown"))).toEqual(["isolate", "specialist", "share a load", "dispose", "ended by"]);
  });
});

test("the department's own rules stand in the place of those that it started with, its own kinds after them", () => {
  const own = { ...rule("asbestos"), name: "Asbestos, our way" };
  const paint = { ...rule("unknown"), code: "paint", name: "Paint" };
  const rules = rulesInForce([paint, own]);
  expect(rules.find(({ code }) => code === "asbestos")?.name).toBe("Asbestos, our way");
  expect(rules.at(-1)?.code).toBe("paint");
  expect(rules).toHaveLength(STARTING_CONTAMINANTS.length + 1);
});
