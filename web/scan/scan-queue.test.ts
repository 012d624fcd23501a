import fc from "fast-check";
import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import type { ScanEvent } from "./scan-event.ts";
import { openScanLine } from "./scan-line.ts";
import { emptyQueue, type QueueEffect, stepQueue } from "./scan-queue.ts";

const aScan = (text: string): ScanEvent => ({
  text,
  carrier: "unknown",
  symbology: "",
  via: "wedge",
  time: 0,
  device: "bench",
});
const texts = (count: number) => Array.from({ length: count }, (_, index) => `scan ${index + 1}`);

describe("against a server slowed to one second", () => {
  beforeEach(() => {
    vi.useFakeTimers();
  });
  afterEach(() => {
    vi.useRealTimers();
  });

  /** Scans every `everyMs` against a server that takes `answerMs(n)` for the n-th request. */
  async function bench(count: number, everyMs: number, answerMs: (request: number) => number) {
    const applied: { text: string; answer: string; isLast: boolean; at: number }[] = [];
    const refused: string[] = [];
    let requests = 0;
    let open = 0;
    let mostOpen = 0;
    const start = Date.now();
    const line = openScanLine<string>({
      ask: async (scan) => {
        requests += 1;
        open += 1;
        mostOpen = Math.max(mostOpen, open);
        await new Promise((done) => setTimeout(done, answerMs(requests)));
        open -= 1;
        if (scan.text === "scan 7") throw new Error("gone");
        return `piece of ${scan.text}`;
      },
      failed: (scan) => `no answer for ${scan.text}`,
      apply: (scan, answer, isLast) => {
        applied.push({ text: scan.text, answer, isLast, at: Date.now() - start });
        return undefined;
      },
      refuse: (scan) => refused.push(scan.text),
    });
    for (const text of texts(count)) {
      line.take(aScan(text));
      await vi.advanceTimersByTimeAsync(everyMs);
    }
    await vi.advanceTimersByTimeAsync(200_000);
    return { applied, refused, requests, mostOpen, waiting: line.waiting() };
  }

  test("20 scans in 10 s are all answered, each once, in order, within 1.5 s of their scan", async () => {
    const { applied, refused, requests } = await bench(20, 500, () => 1_000);
    expect(applied.map(({ text }) => text)).toEqual(texts(20));
    expect(requests).toBe(20);
    expect(refused).toEqual([]);
    for (const [index, { at }] of applied.entries()) expect(at - index * 500).toBeLessThanOrEqual(1_500);
  });
  test("two scans 150 ms apart come out in order although the first answer comes last", async () => {
    const { applied } = await bench(2, 150, (request) => (request === 1 ? 1_000 : 50));
    expect(applied.map(({ text, isLast }) => ({ text, isLast }))).toEqual([
      { text: "scan 1", isLast: false },
      { text: "scan 2", isLast: true },
    ]);
  });
  test("a request that fails is an answer of its own and does not hold up the rest", async () => {
    const { applied } = await bench(10, 500, () => 1_000);
    expect(applied.map(({ answer }) => answer)[6]).toBe("no answer for scan 7");
    expect(applied).toHaveLength(10);
  });
  test("never are more than four look-ups on their way", async () => {
    expect((await bench(40, 20, () => 1_000)).mostOpen).toBe(4);
  });
  test("scans beyond sixty waiting are refused aloud and the others still come out in order", async () => {
    const { applied, refused, waiting } = await bench(70, 1, () => 1_000);
    expect(refused).toEqual(texts(70).slice(60));
    expect(applied.map(({ text }) => text)).toEqual(texts(60));
    expect(waiting).toBe(0);
  });
});

test("whatever order answers come in, each scan is asked once and applied once, in the order of scanning", () => {
  fc.assert(
    fc.property(fc.array(fc.nat(), { maxLength: 120 }), (choices) => {
      let queue = emptyQueue<string>();
      const open: number[] = [];
      const asked: string[] = [];
      const applied: string[] = [];
      let scanned = 0;
      const carryOut = (effects: readonly QueueEffect<string>[]) => {
        for (const effect of effects) {
          if (effect.kind === "ask") {
            open.push(effect.seq);
            asked.push(effect.scan.text);
          }
          if (effect.kind === "apply") applied.push(effect.scan.text);
        }
      };
      const answer = (pick: number) => {
        const [seq] = open.splice(pick % open.length, 1);
        const step = stepQueue(queue, { kind: "answered", seq: seq ?? -1, answer: "found" });
        queue = step.queue;
        carryOut(step.effects);
      };
      for (const choice of choices) {
        if (choice % 2 === 0 && open.length > 0) answer(choice >> 1);
        else if (queue.waiting.length < 60) {
          scanned += 1;
          const step = stepQueue(queue, { kind: "scanned", scan: aScan(`scan ${scanned}`) });
          queue = step.queue;
          carryOut(step.effects);
        }
      }
      while (open.length > 0) answer(0);
      expect(asked).toEqual(texts(scanned));
      expect(applied).toEqual(texts(scanned));
      expect(queue.waiting).toEqual([]);
    }),
  );
});

test("an answer that comes twice, or for no scan, changes nothing", () => {
  const first = stepQueue(emptyQueue<string>(), { kind: "scanned", scan: aScan("scan 1") });
  const answered = stepQueue(first.queue, { kind: "answered", seq: 1, answer: "found" });
  expect(stepQueue(answered.queue, { kind: "answered", seq: 1, answer: "again" }).effects).toEqual([]);
  expect(stepQueue(answered.queue, { kind: "answered", seq: 9, answer: "stray" }).effects).toEqual([]);
});

describe("while it is not said who is at the bench", () => {
  interface Asked {
    readonly text: string;
    readonly answer: (by: string) => void;
  }

  /** A line that a badge holds; answers are given by hand, in any order. */
  function line() {
    const asked: Asked[] = [];
    const applied: string[] = [];
    const opened = openScanLine<string>({
      ask: ({ text }) =>
        new Promise((answer) => asked.push({ text, answer: (by) => answer(`${text} for ${by}`) })),
      failed: () => "failed",
      apply: ({ text }, answer) => {
        applied.push(answer);
        return text === "badge" ? "hold" : undefined;
      },
      refuse: () => {},
    });
    const answer = async (index: number, by: string) => {
      asked[index]?.answer(by);
      await new Promise((done) => setTimeout(done, 0));
    };
    return { ...opened, asked, applied, answer };
  }

  test("scans wait in order, those asked before too, and all are asked anew for the person who came", async () => {
    const bench = line();
    for (const text of ["coat", "badge", "hood", "rack"]) bench.take(aScan(text));
    await bench.answer(0, "inez");
    await bench.answer(2, "inez");
    await bench.answer(3, "inez");
    await bench.answer(1, "inez");
    bench.take(aScan("boots"));
    expect([bench.applied, bench.waiting(), bench.asked.length]).toEqual([
      ["coat for inez", "badge for inez"],
      3,
      4,
    ]);
    bench.release();
    expect(bench.asked.slice(4).map(({ text }) => text)).toEqual(["hood", "rack", "boots"]);
    for (const index of [6, 5, 4]) await bench.answer(index, "tobin");
    expect(bench.applied.slice(2)).toEqual(["hood for tobin", "rack for tobin", "boots for tobin"]);
    expect(bench.waiting()).toBe(0);
  });

  test("an answer that was on its way to the person before changes nothing", async () => {
    const bench = line();
    for (const text of ["badge", "hood"]) bench.take(aScan(text));
    await bench.answer(0, "inez");
    await bench.answer(1, "inez");
    expect([bench.applied, bench.waiting()]).toEqual([["badge for inez"], 1]);
  });
});
