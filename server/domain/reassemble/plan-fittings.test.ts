import { describe, expect, test } from "vitest";
import { aBenchList, aCoat, aLiner, aPieceOnBench, wasIn } from "../../../test/kit/builders/bench-list.ts";
import type { PieceId, Uuid } from "../ids.ts";
import type { LocalDate, YearMonth } from "../time.ts";
import type { BenchList, Pair } from "./bench-list.ts";
import { leftOver } from "./left-over.ts";
import { planFittings } from "./plan-fittings.ts";

const pair = (shell: string, layer: string): Pair => ({ shell: shell as PieceId, layer: layer as PieceId });
const planned = (list: BenchList, confirmed: readonly Pair[] = [], shown: readonly Pair[] = []) =>
  planFittings(list, confirmed, shown).places.flatMap(({ fittings }) =>
    fittings.map(({ shell, layer, by }) => `${layer} in ${shell}, ${by}`),
  );
const left = (list: BenchList) => leftOver(list, planFittings(list));
const other = { linerCode: "LK-3" };

describe("which liner goes in which shell", () => {
  test("gives each shell the liner that it had, whatever suits better", () => {
    const made = (on: string) => ({ madeOn: on as YearMonth });
    const list = aBenchList(
      [
        aCoat("A", made("2020-01")),
        aCoat("B", made("2024-01")),
        aLiner("b", made("2020-01")),
        aLiner("a", made("2024-01")),
      ],
      [wasIn("a", "A", [2, 9]), wasIn("b", "B", [2, 9])],
    );
    expect(planned(list)).toEqual(["a in A, own", "b in B, own"]);
  });

  test("leaves a liner out of the shell that it had once its label says otherwise", () => {
    const list = aBenchList([aCoat("A"), aLiner("a", other), aLiner("x")], [wasIn("a", "A", [2, 9])]);
    expect(planned(list)).toEqual(["x in A, matched"]);
  });

  test("makes the most fittings of what is left, and does not let the best pair stand in the way", () => {
    // x suits A best, and B takes x alone.
    const list = aBenchList(
      [
        aCoat("A", { cutNumber: "C-1", linerCode: "LK-2" }),
        aCoat("B", { size: "48 32 R" }),
        aLiner("x", { cutNumber: "C-1", size: "48 32 R" }),
        aLiner("y", {}),
      ],
      [],
      {
        facts: {
          takes: [],
          comparedByEye: [],
          acceptedCombinations: [
            {
              id: "w" as Uuid,
              saidBy: "maker",
              saidByName: "Tarnholt",
              saidOn: "2026-01-01" as LocalDate,
              document: "letter",
              scope: { what: "pieces", shell: "A" as PieceId, layer: "x" as PieceId },
            },
          ],
        },
      },
    );
    expect(planned(list)).toEqual(["y in A, matched", "x in B, matched"]);
  });

  test("prefers one factory set, then nearest age, then nearest wash count, then the lowest tag number", () => {
    const one = [
      aCoat("A", { cutNumber: "C-7" }),
      aLiner("x"),
      aLiner("y", { cutNumber: "c-7", madeOn: "2010-01" as YearMonth }),
    ];
    expect(planned(aBenchList(one))).toEqual(["y in A, matched"]);
    const age = [
      aCoat("A"),
      aLiner("x", { madeOn: "2021-09" as YearMonth }),
      aLiner("y", { madeOn: "2022-04" as YearMonth }),
    ];
    expect(planned(aBenchList(age))).toEqual(["y in A, matched"]);
    const wear = [
      aCoat("A", {}, { washes: 9 }),
      aLiner("x", {}, { washes: 2 }),
      aLiner("y", {}, { washes: 8 }),
    ];
    expect(planned(aBenchList(wear))).toEqual(["y in A, matched"]);
    expect(planned(aBenchList([aLiner("y"), aCoat("A"), aLiner("x")]))).toEqual(["x in A, matched"]);
  });

  test("never lets a cut number alone bring two together whose labels differ", () => {
    const list = aBenchList([aCoat("A", { cutNumber: "C-7" }), aLiner("x", { cutNumber: "C-7", ...other })]);
    expect(planned(list)).toEqual([]);
  });

  test("keeps what was confirmed at the bench, also where another plan would suit better", () => {
    const list = aBenchList([aCoat("A"), aCoat("B"), aLiner("a"), aLiner("b")], [wasIn("a", "A", [2, 9])]);
    expect(planned(list, [pair("B", "a")])).toEqual(["a in B, in place", "b in A, matched"]);
  });

  test("leaves a shown pair alone when a piece comes that only ties with it", () => {
    const before = [aCoat("A"), aLiner("x")];
    const shown = [pair("A", "x")];
    expect(planned(aBenchList([...before, aLiner("c")]), [], shown)).toEqual(["x in A, matched"]);
    expect(planned(aBenchList([...before, aLiner("c")]))).toEqual(["c in A, matched"]);
    const better = aLiner("c", {}, { washes: 4 });
    const worn = [aCoat("A"), aLiner("x", {}, { washes: 9 }), better];
    expect(planned(aBenchList(worn), [], shown)).toEqual(["c in A, matched"]);
  });

  test("takes coats and pants, liners and DRDs, each in their own places", () => {
    const pieces = [
      aCoat("A"),
      aLiner("a"),
      aPieceOnBench("d", "drd"),
      aPieceOnBench("P", "pants-shell"),
      aPieceOnBench("p", "pants-liner"),
      aPieceOnBench("h", "hood"),
    ];
    const needs = {
      ["A" as PieceId]: [{ layerKind: "coat-liner" }, { layerKind: "drd" }],
      ["P" as PieceId]: [{ layerKind: "pants-liner" }],
    };
    // A shell's own label says nothing of DRDs: the model table does.
    const coat = { ...pieces[0], model: "K7" as never } as (typeof pieces)[number];
    const takes = [{ shellModel: "K7" as never, layerKind: "drd", takesLinerCode: "LK-2" }];
    const facts = { takes, acceptedCombinations: [], comparedByEye: [] };
    const list = aBenchList([coat, ...pieces.slice(1)], [], { needs, facts });
    expect(planned(list)).toEqual(["a in A, matched", "d in A, matched", "p in P, matched"]);
    expect(planFittings(list).others.map(({ id }) => id)).toEqual(["h"]);
  });

  test("leaves retired pieces and evidence out", () => {
    const gone = aLiner("x", {}, { retiredAt: "2026-02-01T00:00:00.000Z" });
    expect(planned(aBenchList([aCoat("A"), gone]))).toEqual([]);
    expect(planFittings(aBenchList([aCoat("A"), gone])).barred.map(({ id }) => id)).toEqual(["x"]);
  });
});

describe("liners found in a circle", () => {
  const coats = [aCoat("A"), aCoat("B"), aCoat("C"), aLiner("a"), aLiner("b"), aLiner("c")];
  const homes = [wasIn("a", "A", [2, 9]), wasIn("b", "B", [2, 9]), wasIn("c", "C", [2, 9])];

  test("have their homes where they were before they were found", () => {
    const found = [wasIn("b", "A", [9], true), wasIn("c", "B", [9], true), wasIn("a", "C", [9], true)];
    expect(planned(aBenchList(coats, [...homes, ...found]))).toEqual([
      "a in A, own",
      "b in B, own",
      "c in C, own",
    ]);
  });

  test("are at home where they were found if nothing older is on record", () => {
    const found = [wasIn("b", "A", [9], true), wasIn("a", "B", [9], true)];
    const list = aBenchList([aCoat("A"), aCoat("B"), aLiner("a"), aLiner("b")], found);
    expect(planned(list)).toEqual(["b in A, in place", "a in B, in place"]);
  });
});

describe("what stays over", () => {
  test("says that nothing here goes with a piece, what its labels say, or that its partners are taken", () => {
    const list = aBenchList([aCoat("A"), aLiner("x"), aLiner("y"), aLiner("z", other)]);
    expect(left(list).over).toEqual([
      { layer: "y", why: { code: "partners-taken" } },
      { layer: "z", why: { code: "labels-stop", best: "differs", with: "A" } },
    ]);
    expect(left(aBenchList([aCoat("A")])).empty).toEqual([
      { shell: "A", layerKind: "coat-liner", why: { code: "nothing-here" } },
    ]);
  });

  test("names the own shell of a liner whose shell does not lie here", () => {
    const list = aBenchList([aLiner("x")], [wasIn("x", "X", [2, 9])], {
      absent: [{ piece: aCoat("X"), loadMatesAt: [] }],
    });
    expect(left(list).over).toEqual([{ layer: "x", why: { code: "nothing-here" }, ownShell: "X" }]);
  });

  test("says which shell one missing liner frees, also by passing on the one planned in its place", () => {
    // b lies here and would go in B, its size; A's own liner a is missing, so A takes b, and B stays empty.
    const pieces = [aCoat("A"), aCoat("B"), aLiner("x")];
    const fittings = [wasIn("a", "A", [2, 9])];
    const list = aBenchList(pieces, fittings, { absent: [{ piece: aLiner("a"), loadMatesAt: [] }] });
    expect(planned(list)).toEqual(["x in A, matched"]);
    expect(left(list).wouldFree).toEqual([
      { missing: "a", layerKind: "coat-liner", goesIn: "A", frees: "B" },
    ]);
    const alone = aBenchList([aCoat("A")], fittings, { absent: [{ piece: aLiner("a"), loadMatesAt: [] }] });
    expect(left(alone).wouldFree).toEqual([
      { missing: "a", layerKind: "coat-liner", goesIn: "A", frees: "A" },
    ]);
  });
});
