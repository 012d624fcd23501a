import fc from "fast-check";
import { expect, test } from "vitest";
import { aHistoryWithQuestion } from "../../../test/kit/builders/random-custody.ts";
import type { CustodyHistory, HistoryStay, TraceQuestion } from "./custody-history.ts";
import { traceHistory } from "./trace-history.ts";
import { beginTrace, step, type TraceFacts, type TraceNeed, type TraceStep } from "./trace-step.ts";

/** Reads from a history what a need asks for, and no more. */
function factsFor(history: CustodyHistory, need: TraceNeed): TraceFacts {
  const touches = (stay: HistoryStay, { from, to }: { from: number; to: number }) =>
    stay.from <= to && (stay.to ?? Number.POSITIVE_INFINITY) >= from;
  const keyed = history.stays.map((stay, index) => ({ ...stay, key: String(index).padStart(3, "0") }));
  const ofPieces = keyed.filter((stay) =>
    need.pieces.some((span) => span.id === stay.piece && touches(stay, span)),
  );
  const atHolders = keyed.filter((stay) =>
    need.holders.some((span) => span.id === stay.holder && touches(stay, span)),
  );
  return {
    answers: need,
    stays: [...ofPieces, ...atHolders],
    holders: history.holders.filter(({ id }) => ofPieces.some(({ holder }) => holder === id)),
    cleanings: history.cleanings.filter(({ piece, at }) =>
      need.pieces.some((span) => span.id === piece && span.from <= at && at <= span.to),
    ),
  };
}

function walkThrough(history: CustodyHistory, question: TraceQuestion) {
  const asked: TraceNeed[] = [];
  let now: TraceStep = beginTrace(question);
  while ("need" in now) {
    asked.push(now.need);
    expect(asked.length).toBeLessThan(60);
    now = step(now.state, factsFor(history, now.need));
  }
  if ("noStay" in now) throw new Error("no stay");
  return { contacts: now.contacts, asked };
}

const told = (contacts: ReturnType<typeof walkThrough>["contacts"]) =>
  contacts.map(({ piece, path, earlier }) => [piece, path.hops, path.arrival, earlier?.arrival]);

test("a walk that is told only what it asks for finds what a walk over everything finds", () => {
  fc.assert(
    fc.property(aHistoryWithQuestion, ({ history, question }) => {
      const whole = traceHistory(history, question);
      if ("noStay" in whole) throw new Error("no stay");
      expect(told(walkThrough(history, question).contacts)).toEqual(told(whole.contacts));
    }),
    { numRuns: 1_500 },
  );
});

test("a walk of two steps asks in turn: roots, their holders, the pieces met, their holders", () => {
  const history: CustodyHistory = {
    stays: [
      { piece: "root", holder: "bag", from: 5, to: 8 },
      { piece: "root", holder: "peg", from: 8 },
      { piece: "liner", holder: "bag", from: 6, to: 9 },
      { piece: "liner", holder: "rack", from: 9, to: 25 },
      { piece: "hood", holder: "rack", from: 1, to: 20 },
      { piece: "hood", holder: "bench", from: 20 },
      { piece: "helmet", holder: "bench", from: 2 },
    ],
    holders: [
      { id: "bag", carries: "closed", cleanings: [] },
      { id: "rack", carries: "shared", cleanings: [30] },
      { id: "bench", carries: "shared", cleanings: [] },
      { id: "peg", carries: "apart", cleanings: [] },
    ],
    cleanings: [],
  };
  const question: TraceQuestion = {
    roots: [{ piece: "root", at: 5 }],
    direction: "forward",
    hops: 2,
    until: 100,
    carriers: ["closed", "shared"],
  };
  const { contacts, asked } = walkThrough(history, question);
  expect(asked).toEqual([
    { pieces: [{ id: "root", from: 5, to: 100 }], holders: [] },
    { pieces: [], holders: [{ id: "bag", from: 5, to: 100 }] },
    { pieces: [{ id: "liner", from: 6, to: 100 }], holders: [] },
    { pieces: [], holders: [{ id: "rack", from: 9, to: 30 }] },
  ]);
  expect(told(contacts)).toEqual([
    ["liner", 1, 6, undefined],
    ["hood", 2, 9, undefined],
  ]);
});
