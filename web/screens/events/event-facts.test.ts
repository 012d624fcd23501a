import { expect, test } from "vitest";
import { factsOf, newDraft } from "./event-facts.ts";

const NOW = Date.parse("2026-03-02T16:30:00Z");
const zone = "America/Chicago";

test("a new event begins with the last two hours, in the department's time", () => {
  expect(newDraft(NOW, zone)).toMatchObject({ from: "2026-03-02T08:30", to: "2026-03-02T10:30" });
});

test("an event is sent with instants, and with nothing that was left empty", () => {
  const draft = { ...newDraft(NOW, zone), name: " the Kettle Yard fire ", kinds: ["fire-products"] };
  expect(factsOf(draft, zone)).toEqual({
    facts: {
      name: "the Kettle Yard fire",
      kinds: ["fire-products"],
      from: "2026-03-02T14:30:00.000Z",
      to: "2026-03-02T16:30:00.000Z",
    },
  });
});

test("what is missing is told all at once", () => {
  const draft = { ...newDraft(NOW, zone), to: "2026-03-02T07:00" };
  expect(factsOf(draft, zone)).toEqual({ missing: ["name", "kinds", "times"] });
});
