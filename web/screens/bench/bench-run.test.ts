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

describe("a load", () => {
  const usual = {
    id: "p1",
    name: "Turnout gear",
    usual: true,
    how: "advanced cleaning",
    over: [],
    unknown: [],
  };
  const machine = (facts: object = {}) => ({ id: "w", name: "Washer 1", programmes: [usual], ...facts });
  const card = (facts: object = {}): ScanAnswer =>
    ({
      kind: "place",
      text: "W",
      place: { id: "w-place", name: "Washer 1" },
      machine: machine(facts),
    }) as never;
  const dryerCard = (facts: object = {}): ScanAnswer =>
    ({
      ...{ kind: "place", text: "D", place: { id: "d-place", name: "Dryer 1" } },
      machine: { id: "d", name: "Dryer 1", programmes: [{ ...usual, how: undefined }], ...facts },
    }) as never;
  const shells = ["a", "b", "c", "d", "e"].map((id) => aPiece(id, "shell"));
  const running = { load: "l1", since: "2026-03-02T10:00:00.000Z", pieces: 5 };
  const waiting = { from: "Washer 1", endedAt: "2026-03-02T10:45:00.000Z", pieces: shells };
  const started: BenchEvent = {
    kind: "written",
    act: "1",
    says: "load started",
    at: 0,
    running: running as never,
  };

  test("of five shells is washed and put in the dryer with ten scans and nothing else", () => {
    const scans: ScanAnswer[] = [
      card(),
      ...shells.map(pieceScan),
      card(),
      card({ running }),
      dryerCard({ waiting }),
      dryerCard({ waiting }),
    ];
    let run = AT_REST;
    const done: string[] = [];
    for (const answer of scans) {
      const step = stepBench(run, scan(answer));
      run = step.run;
      for (const effect of step.effects.filter((one) => one.do !== "sound")) {
        done.push(effect.do);
        const runs = effect.do === "end load" ? null : (running as never);
        run = stepBench(run, { ...started, running: runs }).run;
      }
    }
    expect([scans.length, done]).toEqual([10, ["confirm", "end load", "confirm"]]);
  });

  test("a machine's card with an empty tray ends what runs in it, and with pieces on the tray it does not", () => {
    expect(play([scan(card({ running }))]).done).toEqual(["end load"]);
    const { run, done } = play([
      scan(card()),
      scan(pieceScan(aPiece("a", "shell"))),
      scan(card({ running })),
    ]);
    expect([run.tray.length, done]).toEqual([1, ["confirm"]]);
  });

  test("a dryer from which all was taken has ended, and takes the next load at once", () => {
    const { run } = play([scan(dryerCard({ running: { ...running, pieces: 0 }, waiting }))]);
    expect([run.mode.kind, run.tray.length]).toEqual(["load", 5]);
  });

  test("another programme keeps the tray, and the card still starts it", () => {
    const { run, done } = play([
      scan(card()),
      scan(pieceScan(aPiece("a", "shell"))),
      { kind: "mode chosen", mode: { kind: "load", machine: machine() as never, programme: "p2" } },
      scan(card()),
    ]);
    expect([run.mode, done]).toMatchObject([{ kind: "load", programme: "p2" }, ["confirm"]]);
  });

  test("at turn-in a machine's card is the place where the gear goes", () => {
    const { run } = play([scan(actionCard("turn in soiled")), scan(card({ running }))]);
    expect(run.mode).toMatchObject({ kind: "turn in", to: { name: "Washer 1" } });
  });

  test("a run that was aborted is ended as such, once", () => {
    const { run, done } = play([scan(card()), started, { kind: "end load", outcome: "aborted" }]);
    expect([done, run.sending]).toEqual([["end load"], true]);
    expect(stepBench(run, { kind: "end load", outcome: "aborted" }).effects).toEqual([]);
  });
});

test("the card of a wiped place writes it at once", () => {
  const { done } = play([scan(actionCard("wiped")), scan(placeCard("P", "Bench 1"))]);
  expect(done).toEqual(["wipe"]);
  const wiped: BenchEvent = { kind: "written", act: "1", says: "Bench 1 wiped", at: 0 };
  expect(play([scan(actionCard("wiped")), scan(placeCard("P", "Bench 1")), wiped]).run.mode.kind).toBe(
    "look up",
  );
});
