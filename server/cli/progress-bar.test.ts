import { expect, test } from "vitest";
import { barLine, progressBar } from "./progress-bar.ts";

test("the bar says how far the work is, and never that an estimate is reached", () => {
  expect(barLine({ phase: "acts", done: 5_000, total: 20_000 })).toBe(
    "[######..................] 25 %  acts 5,000 of about 20,000",
  );
  expect(barLine({ phase: "entries", done: 30_000, total: 20_000 })).toBe(
    "[########################] 99 %  entries 30,000",
  );
  expect(barLine({ phase: "tables", done: 7, total: 0 })).toBe("[........................]  0 %  tables 7");
});

test("where nobody looks on nothing is written, and on a terminal the bar is taken away at the end", () => {
  const written: string[] = [];
  const stream = (isTTY: boolean) => ({ isTTY, write: (text: string) => written.push(text) });
  for (const isTTY of [false, true]) {
    const bar = progressBar(stream(isTTY));
    bar.show({ phase: "acts", done: 1, total: 2 });
    bar.end();
    bar.end();
  }
  expect(written).toHaveLength(2);
  expect(written.at(-1)).toBe("\r\u001b[K");
});
