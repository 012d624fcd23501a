import { expect, test } from "vitest";
import { draftFromAddress, questionOf } from "./trace-draft.ts";

const NOW = Date.parse("2026-03-10T15:00:00Z");
const ZONE = "America/Chicago";

test("a link from an event fills the form, and the days count on from the end of the event", () => {
  const draft = draftFromAddress("?event=e1", NOW, ZONE);
  const times = { from: "2026-03-01T08:00:00.000Z", to: "2026-03-01T10:00:00.000Z" };
  expect(questionOf({ ...draft, days: "10" }, ZONE, times)).toEqual({
    question: {
      ...{ start: { kind: "event", event: "e1" }, direction: "forward", hops: 2 },
      until: "2026-03-11T10:00:00.000Z",
    },
  });
});

test("backward the days count from the beginning", () => {
  const draft = { ...draftFromAddress("?member=m1", NOW, ZONE), direction: "backward" as const, days: "1" };
  expect(questionOf({ ...draft, from: "2026-03-05T08:00", to: "2026-03-05T09:00" }, ZONE, undefined)).toEqual(
    {
      question: {
        start: {
          kind: "member",
          member: "m1",
          from: "2026-03-05T14:00:00.000Z",
          to: "2026-03-05T15:00:00.000Z",
        },
        ...{ direction: "backward", hops: 2, until: "2026-03-04T14:00:00.000Z" },
      },
    },
  );
});

test("a form without start, with times turned round and no days says all three", () => {
  const draft = { ...draftFromAddress("?place=", NOW, ZONE), days: "0" };
  expect(questionOf({ ...draft, from: "2026-03-05T10:00", to: "2026-03-05T09:00" }, ZONE, undefined)).toEqual(
    {
      missing: ["start", "times", "days"],
    },
  );
});
