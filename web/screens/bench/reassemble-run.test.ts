import { describe, expect, test } from "vitest";
import type { PieceBrief, PieceView } from "../../../server/domain/piece-view.ts";
import { aBenchList, aCoat, aLiner, wasIn } from "../../../test/kit/builders/bench-list.ts";
import { AT_REST, type BenchEvent, type BenchRun, stepBench } from "./bench-run.ts";

const viewOf = (piece: PieceBrief): PieceView => ({ ...piece, tags: [], fitted: [] }) as unknown as PieceView;
const scan = (piece: PieceBrief): BenchEvent => ({
  kind: "scanned",
  answer: { kind: "piece", text: piece.id, piece: viewOf(piece), tag: {} } as never,
  via: "wedge",
});
const mode = (step: "lay out" | "install"): BenchEvent => ({
  kind: "mode chosen",
  mode: { kind: "reassemble", step },
});
const written: BenchEvent = { kind: "written", act: "x", says: "coat liner installed", at: 1 };

function play(events: readonly BenchEvent[], run: BenchRun = AT_REST) {
  const done: string[] = [];
  let now = run;
  for (const event of events) {
    const step = stepBench(now, event);
    now = step.run;
    done.push(...step.effects.map((effect) => effect.do).filter((what) => what !== "sound"));
  }
  return { run: now, done };
}
const pairsOf = ({ reassembly }: BenchRun) =>
  reassembly?.plan?.places.flatMap(({ fittings }) =>
    fittings.map(({ shell, layer, by }) => `${layer} ${shell} ${by}`),
  );

describe("laying out", () => {
  test("writes nothing, asks for the record once a piece, and keeps the list for installing", () => {
    const { run, done } = play([
      mode("lay out"),
      scan(aLiner("a")),
      scan(aCoat("A")),
      scan(aLiner("a")),
      { kind: "confirm" },
    ]);
    expect(done).toEqual(["read list", "read list"]);
    expect([run.mode, run.reassembly?.lying.length]).toEqual([{ kind: "reassemble", step: "install" }, 2]);
  });

  test("shows the plan that the record gives, and does not lapse while something lies there", () => {
    const list = aBenchList([aCoat("A"), aLiner("a"), aLiner("b")], [wasIn("a", "A", [2, 9])]);
    const { run } = play([mode("lay out"), scan(aCoat("A")), { kind: "list read", list }, { kind: "idle" }]);
    expect(pairsOf(run)).toEqual(["a A own"]);
    expect(run.mode.kind).toBe("reassemble");
  });

  test("is emptied by clear and by nothing else", () => {
    const laid = play([mode("lay out"), scan(aCoat("A"))]).run;
    const away = play([{ kind: "mode chosen", mode: { kind: "look up" } }, mode("lay out")], laid).run;
    expect(away.reassembly?.lying.length).toBe(1);
    expect(play([{ kind: "clear" }], away).run.reassembly).toBeUndefined();
  });
});

describe("installing in turn", () => {
  test("takes twenty coats with sixty scans: each layer is sent after its scan, and nothing is confirmed", () => {
    const coats = Array.from({ length: 20 }, (_, at) => at);
    const scans = coats.flatMap((at) => [
      scan(aCoat(`S${at}`)),
      scan(aLiner(`l${at}`)),
      written,
      scan({ ...aLiner(`d${at}`), kind: { ...aLiner("d").kind, code: "drd", layer: "drd" } }),
      written,
    ]);
    expect(scans.filter(({ kind }) => kind === "scanned")).toHaveLength(60);
    const { done } = play([mode("install"), ...scans]);
    expect(done.filter((what) => what === "install")).toHaveLength(40);
    expect(done).not.toContain("confirm");
  });

  test("keeps what was written in place while the rest is planned anew", () => {
    const list = aBenchList([aCoat("A"), aCoat("B"), aLiner("a"), aLiner("b")], [wasIn("a", "A", [2, 9])]);
    const lying = play([mode("install"), scan(aCoat("B")), { kind: "list read", list }]).run;
    expect(pairsOf(lying)).toEqual(["a A own", "b B matched"]);
    const { run } = play([scan(aLiner("a")), written], lying);
    expect(pairsOf(run)).toEqual(["a B in place", "b A matched"]);
  });

  test("a refused layer changes no plan, and the shell stays open for the next scan", () => {
    const { run } = play([
      mode("install"),
      scan(aCoat("A")),
      scan(aLiner("x")),
      { kind: "refused", verb: "Not installed.", reasons: [] },
    ]);
    expect([run.shell?.id, run.sending, run.reassembly?.confirmed]).toEqual(["A", false, []]);
  });

  test("a layer that the record has in this shell already needs no act", () => {
    const fitted = { ...aLiner("a"), fittedIn: { piece: aCoat("A") } } as unknown as PieceBrief;
    const { run, done } = play([mode("install"), scan(aCoat("A")), scan(fitted)]);
    expect(done).not.toContain("install");
    expect(run.reassembly?.confirmed).toEqual([{ shell: "A", layer: "a" }]);
  });
});
