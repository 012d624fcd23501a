import { expect, test } from "vitest";
import type { MemberId, PieceId, PlaceId } from "../../../server/domain/ids.ts";
import type { PieceView } from "../../../server/domain/piece-view.ts";
import type { ScanAnswer } from "../../../server/domain/scan-answer.ts";
import type { TagNumber } from "../../../server/domain/tags/tag-number.ts";
import { AT_REST, type BenchEffect, type BenchRun, stepBench } from "./bench-run.ts";

const place = { id: "b" as PlaceId, name: "Bag 217", what: "bag", carries: "closed", closed: false } as const;
/** The nine tags of a full set (design, section 6). */
const SET = Array.from({ length: 9 }, (_, nth) => `p${nth}`);

const bagCard = (ids: readonly string[]): ScanAnswer => ({
  kind: "place",
  text: "BAG",
  place,
  bag: {
    pieces: ids.map((id) => ({
      ...{ id: id as PieceId, name: "Hood", number: id as TagNumber, isPresumed: true },
    })),
  },
});
const memberCard: ScanAnswer = {
  kind: "member",
  text: "M",
  member: { id: "m" as MemberId, number: "214", name: "Corwin Bask" },
};
const aTag = (id: string): ScanAnswer => ({
  kind: "piece",
  text: id,
  piece: { id, kind: { code: "hood", name: "Hood" }, tags: [] } as unknown as PieceView,
  tag: { number: id as TagNumber, state: "attached" },
});

function scanAll(run: BenchRun, answers: readonly ScanAnswer[]): { run: BenchRun; effects: BenchEffect[] } {
  const effects: BenchEffect[] = [];
  for (const answer of answers) {
    const step = stepBench(run, { kind: "scanned", answer, via: "wedge" });
    run = step.run;
    effects.push(...step.effects.filter(({ do: does }) => does !== "sound"));
  }
  return { run, effects };
}

test("soiled gear is dropped after hours by two scans and no tap (design, section 6)", () => {
  const scans = [bagCard([]), memberCard];
  expect(scanAll(AT_REST, scans).effects).toEqual([
    { do: "pack", bag: { id: "b", name: "Bag 217" }, packer: { id: "m", name: "Corwin Bask" } },
  ]);
  expect(scans).toHaveLength(2);
});

test("a bag with a full set is opened by one tap and nine scans (design, section 6)", () => {
  // The tap on "Open bag 217" brings in its card.
  const opened = scanAll(AT_REST, [bagCard(SET)]);
  expect(opened.run.mode.kind).toBe("open a bag");
  const scans = SET.map(aTag);
  expect(scanAll(opened.run, scans.slice(0, 8)).effects).toEqual([]);
  expect(scanAll(opened.run, scans).effects).toEqual([{ do: "confirm" }]);
  expect(scans).toHaveLength(9);
});

test("a bag that lacks a piece is not written by itself: its card again says that this is all", () => {
  const some = scanAll(AT_REST, [bagCard(SET), ...SET.slice(0, 5).map(aTag)]);
  expect(some.effects).toEqual([]);
  expect(scanAll(some.run, [bagCard(SET)]).effects).toEqual([{ do: "confirm" }]);
});

test("a bag's card is a place like others while something else is collected", () => {
  const transfer = stepBench(AT_REST, { kind: "mode chosen", mode: { kind: "transfer" } }).run;
  expect(scanAll(transfer, [bagCard(SET)]).run.mode).toMatchObject({ kind: "transfer", to: place });
});
