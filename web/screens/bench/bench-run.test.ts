import { describe, expect, test } from "vitest";
import type { PieceView } from "../../../server/domain/piece-view.ts";
import type { ScanAnswer } from "../../../server/domain/scan-answer.ts";
import { AT_REST, type BenchEvent, type BenchRun, stepBench } from "./bench-run.ts";

/** A piece as far as the reducer looks at it. */
function aPiece(id: string, layer?: "shell" | "liner"): PieceView {
  const kind = { code: layer ? `coat-${layer}` : "hood", name: layer ?? "Hood", ...(layer ? { layer } : {}) };
  return { id, kind, tags: [], fitted: [], holds: [] } as unknown as PieceView;
}
const pieceScan = (piece: PieceView): ScanAnswer =>
  ({ kind: "piece", text: piece.id, piece, tag: { number: "X", state: "attached" } }) as never;
const placeCard = (text: string, name = "Rack B2"): ScanAnswer =>
  ({ kind: "place", text, place: { id: text, name } }) as never;
const memberCard = (text: string): ScanAnswer =>
  ({ kind: "member", text, member: { id: text, number: "214" } }) as never;
const actionCard = (action: string): ScanAnswer => ({ kind: "action", text: action, action }) as never;

const scan = (answer: ScanAnswer): BenchEvent => ({ kind: "scanned", answer, via: "wedge" });
function play(events: readonly BenchEvent[], run: BenchRun = AT_REST) {
  let effects: readonly { do: string }[] = [];
  let now = run;
  for (const event of events) {
    const step = stepBench(now, event);
    now = step.run;
    effects = step.effects;
  }
  return { run: now, done: effects.map((effect) => effect.do) };
}

describe("look up", () => {
  test("shows each scanned piece and puts nothing on the tray", () => {
    const { run } = play([scan(pieceScan(aPiece("a"))), scan(pieceScan(aPiece("b")))]);
    expect([run.mode.kind, run.tray.length, run.shown.what]).toEqual(["look up", 0, "answer"]);
  });
});

describe("a mode with a tray", () => {
  const moving = [scan(placeCard("P")), scan(pieceScan(aPiece("a"))), scan(pieceScan(aPiece("b")))];

  test("is set by a card, collects pieces, and the same card again confirms", () => {
    const { run, done } = play([...moving, scan(placeCard("P"))]);
    expect([run.mode.kind, run.tray.map(({ piece }) => piece.id), run.sending]).toEqual([
      "transfer",
      ["a", "b"],
      true,
    ]);
    expect(done).toEqual(["confirm"]);
  });

  test("says 'already here' for a second scan and never takes the piece off", () => {
    const { run } = play([...moving, scan(pieceScan(aPiece("a")))]);
    expect([run.tray.length, run.shown.what]).toEqual([2, "already here"]);
  });

  test("keeps its tray through a refusal and a fault", () => {
    const refused = play([
      ...moving,
      { kind: "confirm" },
      { kind: "refused", verb: "Not moved.", reasons: [] },
    ]);
    expect([refused.run.tray.length, refused.run.sending]).toEqual([2, false]);
    expect(play([{ kind: "fault", says: "No network." }], refused.run).run.tray).toHaveLength(2);
  });

  test("sends its tray again as there and back, or lays it over to as found, when a late record does not fit", () => {
    const refused = play([...moving, { kind: "refused", verb: "Not moved.", reasons: [] }]).run;
    const back = stepBench(refused, { kind: "there and back" });
    expect([back.effects, back.run.sending]).toEqual([[{ do: "confirm", thereAndBack: true }], true]);
    const found = stepBench(refused, { kind: "found here" }).run;
    expect([found.mode.kind, found.tray.length]).toEqual(["as found", 2]);
  });

  test("never lapses by itself while something lies on it", () => {
    expect(play([...moving, { kind: "idle" }]).run.mode.kind).toBe("transfer");
    expect(play([scan(placeCard("P")), { kind: "idle" }]).run.mode.kind).toBe("look up");
  });

  test("takes another place card as another place, with the tray", () => {
    const { run } = play([...moving, scan(placeCard("Q", "Rack C1"))]);
    expect(run.mode).toMatchObject({ kind: "transfer", to: { name: "Rack C1" } });
    expect(run.tray).toHaveLength(2);
  });

  test("an empty tray is never confirmed", () => {
    expect(play([scan(placeCard("P")), scan(placeCard("P"))]).run.sending).toBe(false);
  });
});

describe("turn in and issue", () => {
  test("a place card says where a turn-in goes, and does not end it", () => {
    const { run } = play([scan(actionCard("turn in soiled")), scan(placeCard("P"))]);
    expect(run.mode).toMatchObject({ kind: "turn in", soiled: true, to: { name: "Rack B2" } });
  });

  test("a member card begins an issue, and again confirms it", () => {
    const { done } = play([scan(memberCard("M")), scan(pieceScan(aPiece("a"))), scan(memberCard("M"))]);
    expect(done).toEqual(["confirm"]);
  });
});

describe("install", () => {
  const install = scan(actionCard("install"));

  test("tries each layer in the shell that was scanned before it, without a further confirm", () => {
    const { run, done } = play([
      install,
      scan(pieceScan(aPiece("s", "shell"))),
      scan(pieceScan(aPiece("l", "liner"))),
    ]);
    expect([run.shown.what, done]).toEqual(["fit", ["install"]]);
  });

  test("a layer before any shell is told to wait for one", () => {
    expect(play([install, scan(pieceScan(aPiece("l", "liner")))]).run.shown.what).toBe("refused");
  });
});
