import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { PieceId, PlaceId } from "../ids.ts";
import { checkSet, type FittedCheck, type SetCheckInput, type SetPiece } from "./check-set.ts";
import type { LabelCheck, LabelVerdict } from "./label-verdict.ts";
import { readyToIssue } from "./ready-to-issue.ts";

const SHELL = "0198a000-0000-7000-8000-000000000001" as PieceId;
const LINER = "0198a000-0000-7000-8000-000000000002" as PieceId;
const DRD = "0198a000-0000-7000-8000-000000000003" as PieceId;
const HELMET = "0198a000-0000-7000-8000-000000000004" as PieceId;
const AWAY = "0198a000-0000-7000-8000-000000000009" as PieceId;
const CAGE = { kind: "place", id: "0198a000-0000-7000-8000-00000000000c" as PlaceId } as const;

function aPiece(pieceId: PieceId, kind: string, given: Partial<SetPiece> = {}): SetPiece {
  return { pieceId, kind, labelReading: "read", holds: [], isSoiled: false, isRetired: false, ...given };
}
function aCheck(verdict: LabelVerdict, given: Partial<LabelCheck> = {}): LabelCheck {
  return { verdict, rows: [], reasons: [], acceptedBy: [], made: {}, ...given };
}
function fitted(layer: PieceId, verdict: LabelVerdict = "match"): FittedCheck {
  return { shell: SHELL, layer, check: aCheck(verdict) };
}
const NEEDS = [{ layerKind: "coat-liner" }, { layerKind: "drd" }];
const shell = aPiece(SHELL, "coat-shell", { needs: NEEDS });
const liner = aPiece(LINER, "coat-liner", { isLayer: true, fittedIn: SHELL });
const drd = aPiece(DRD, "drd", { isLayer: true, fittedIn: SHELL });
const helmet = aPiece(HELMET, "helmet");
const LINER_IN = { shell: SHELL, layer: LINER, layerKind: "coat-liner" };
const DRD_IN = { shell: SHELL, layer: DRD, layerKind: "drd" };

/** A complete coat with a helmet, all in order. */
function aSet(given: Partial<SetCheckInput> = {}): SetCheckInput {
  return {
    pieces: [shell, liner, drd, helmet],
    checks: [fitted(LINER), fitted(DRD)],
    fitted: [LINER_IN, DRD_IN],
    outfit: [],
    labelsNotRead: "stop",
    ...given,
  };
}

test("a complete coat and a helmet in order go out with nothing to say", () => {
  expect(checkSet(aSet())).toEqual({ stops: [], notes: [] });
});

test("all reasons come at once: a hold, soil, another liner, a missing DRD", () => {
  const hold = { version: 4, kind: "contamination" };
  const { stops } = checkSet(
    aSet({
      pieces: [{ ...shell, holds: [hold] }, { ...liner, isSoiled: true }, helmet],
      checks: [fitted(LINER, "differs")],
      fitted: [LINER_IN],
    }),
  );
  expect(stops).toEqual([
    { code: "on-hold", piece: SHELL, hold },
    { code: "layer-missing", piece: SHELL, need: { layerKind: "drd" } },
    { code: "soiled", piece: LINER },
    { code: "labels-differ", piece: SHELL, layer: LINER, check: aCheck("differs") },
  ]);
});

describe("complete garments and outfits", () => {
  test("facts.md section 5 item 4: a coat without its DRD stops as a wrong one would", () => {
    const { stops } = checkSet(aSet({ pieces: [shell, liner], checks: [fitted(LINER)], fitted: [LINER_IN] }));
    expect(stops).toEqual([{ code: "layer-missing", piece: SHELL, need: { layerKind: "drd" } }]);
  });

  test("an outfit without gloves is said once and does not stop", () => {
    const { stops, notes } = checkSet(aSet({ outfit: ["helmet", "glove-pair", "glove-pair"] }));
    expect(stops).toEqual([]);
    expect(notes).toEqual([{ code: "outfit-lacks", kind: "glove-pair" }]);
  });

  test("a liner that lies beside its shell does not complete the coat", () => {
    const { fittedIn: _, ...loose } = liner;
    const { stops, notes } = checkSet(
      aSet({ pieces: [shell, loose, drd], checks: [fitted(DRD)], fitted: [DRD_IN] }),
    );
    expect(stops).toEqual([{ code: "layer-missing", piece: SHELL, need: { layerKind: "coat-liner" } }]);
    expect(notes).toEqual([{ code: "loose-layer", piece: LINER }]);
  });

  test("a spare liner alone may go out, and it is said", () => {
    const { fittedIn: _, ...loose } = liner;
    expect(checkSet(aSet({ pieces: [loose], checks: [], fitted: [] }))).toEqual({
      stops: [],
      notes: [{ code: "loose-layer", piece: LINER }],
    });
  });

  test("a layer recorded in a shell that stays behind stops", () => {
    const { stops } = checkSet(aSet({ pieces: [{ ...liner, fittedIn: AWAY }], checks: [], fitted: [] }));
    expect(stops).toEqual([{ code: "fitted-elsewhere", piece: LINER, shell: AWAY }]);
  });

  test("a fitted layer that was left out, or whose labels nobody compared, stops: nothing passes unseen", () => {
    const { stops } = checkSet(aSet({ pieces: [shell, liner], checks: [] }));
    expect(stops).toEqual([
      { code: "fitting-not-checked", piece: SHELL, layer: LINER },
      { code: "fitted-layer-left-out", piece: SHELL, layer: DRD },
    ]);
  });
});

describe("labels", () => {
  test.each(["stop", "only say so"] as const)("not read: %s, as the department set it", (labelsNotRead) => {
    const { stops, notes } = checkSet(
      aSet({
        pieces: [shell, liner, drd, { ...helmet, labelReading: "not yet read" }],
        checks: [fitted(LINER, "not-read"), fitted(DRD)],
        labelsNotRead,
      }),
    );
    const reasons = [
      { code: "labels-not-read", piece: HELMET },
      { code: "labels-not-read", piece: SHELL, layer: LINER, check: aCheck("not-read") },
    ];
    expect(labelsNotRead === "stop" ? stops : notes).toEqual(reasons);
    expect(labelsNotRead === "stop" ? notes : stops).toEqual([]);
  });

  test("that cannot be told stop, whatever the setting for unread ones is", () => {
    const { stops } = checkSet(
      aSet({ checks: [fitted(LINER, "cannot-tell"), fitted(DRD)], labelsNotRead: "only say so" }),
    );
    expect(stops.map(({ code }) => code)).toEqual(["labels-cannot-tell"]);
  });

  test("an accepted combination and labels compared by eye go out and are said", () => {
    const comparedByEye = { outer: SHELL, inner: DRD, by: "Inez Calloway", on: "2025-04-01" as never };
    const byEye = { shell: SHELL, layer: DRD, check: aCheck("match", { comparedByEye }) };
    const { stops, notes } = checkSet(aSet({ checks: [fitted(LINER, "accepted"), byEye] }));
    expect(stops).toEqual([]);
    expect(notes.map(({ code }) => code)).toEqual(["labels-accepted", "labels-by-eye"]);
  });
});

test("a piece scanned twice is told once", () => {
  const soiled = { ...helmet, isSoiled: true };
  expect(checkSet(aSet({ pieces: [soiled, soiled], checks: [], fitted: [] })).stops).toHaveLength(1);
});

test("property: a set stops if and only if one of its pieces or fittings would stop alone, and never loses a reason", () => {
  const verdicts = fc.constantFrom<LabelVerdict>("match", "accepted", "not-read", "cannot-tell", "differs");
  const faults = fc.record({
    soiled: fc.subarray([SHELL, LINER, DRD, HELMET]),
    held: fc.subarray([SHELL, HELMET]),
    a: verdicts,
    b: verdicts,
  });
  fc.assert(
    fc.property(faults, ({ soiled, held, a, b }) => {
      const pieces = aSet().pieces.map((piece) => ({
        ...piece,
        isSoiled: soiled.includes(piece.pieceId),
        holds: held.includes(piece.pieceId) ? [{ version: 1, kind: "lost" }] : [],
      }));
      const { stops } = checkSet(aSet({ pieces, checks: [fitted(LINER, a), fitted(DRD, b)] }));
      const bad = [a, b].filter((verdict) => verdict !== "match" && verdict !== "accepted").length;
      expect(stops).toHaveLength(soiled.length + held.length + bad);
    }),
  );
});

describe("ready to issue", () => {
  const { outfit: _, ...garment } = aSet();

  test("yes, for a complete coat on a rack", () => {
    expect(readyToIssue(garment, CAGE)).toEqual({ isReady: true, notes: [] });
  });

  test("no, with every reason and where it is", () => {
    const pieces = [{ ...shell, isSoiled: true }, liner, { ...drd, isRetired: true }];
    const answer = readyToIssue({ ...garment, pieces }, { kind: "whereabouts unknown" });
    expect(answer).toMatchObject({
      isReady: false,
      reasons: [
        { code: "soiled", piece: SHELL },
        { code: "retired", piece: DRD },
        { code: "not-at-a-place", holder: { kind: "whereabouts unknown" } },
      ],
    });
  });

  test("yes with a word about unread labels, where the department only wants it said", () => {
    const pieces = [{ ...helmet, labelReading: "not yet read" as const }];
    const said = readyToIssue({ pieces, checks: [], fitted: [], labelsNotRead: "only say so" }, CAGE);
    expect(said).toEqual({ isReady: true, notes: [{ code: "labels-not-read", piece: HELMET }] });
  });
});
