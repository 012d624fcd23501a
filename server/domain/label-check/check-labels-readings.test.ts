import { describe, expect, test } from "vitest";
import type { ModelId, PieceId, Uuid } from "../ids.ts";
import type { MakersLabel } from "../pieces/label.ts";
import type { LocalDate } from "../time.ts";
import type { AcceptedCombination, AcceptedScope } from "./accepted-combination.ts";
import { checkLabels, type LabelCheckInput } from "./check-labels.ts";
import type { ComparedByEye, InnerPiece, LabelField, OuterPiece } from "./label-verdict.ts";

const SHELL = "0198a000-0000-7000-8000-000000000001" as PieceId;
const LINER = "0198a000-0000-7000-8000-000000000002" as PieceId;
const OTHER = "0198a000-0000-7000-8000-000000000003" as PieceId;
const SHELL_MODEL = "0198a000-0000-7000-8000-00000000000a" as ModelId;
const LINER_MODEL = "0198a000-0000-7000-8000-00000000000b" as ModelId;

type Given<Piece> = Partial<Omit<Piece, "label">> & { readonly label?: MakersLabel };

function aShell({ label, ...given }: Given<OuterPiece> = {}): OuterPiece {
  return {
    pieceId: SHELL,
    kind: "coat-shell",
    garment: "coat",
    family: "structural",
    labelReading: "read",
    modelId: SHELL_MODEL,
    label: { maker: "Tarnholt", size: "46 32 R", linerCode: "LK-2", ...label },
    ...given,
  };
}
function aLiner({ label, ...given }: Given<InnerPiece> = {}): InnerPiece {
  return {
    pieceId: LINER,
    kind: "coat-liner",
    layer: "liner",
    garment: "coat",
    family: "structural",
    labelReading: "read",
    label: { maker: "Tarnholt", size: "46 32 R", linerCode: "LK-2", ...label },
    ...given,
  };
}
function without(...fields: (keyof MakersLabel)[]): MakersLabel {
  return Object.fromEntries(fields.map((field) => [field, undefined]));
}
function aWord(scope: AcceptedScope): AcceptedCombination {
  const id = "0198a000-0000-7000-8000-0000000000ff" as Uuid;
  return {
    id,
    saidBy: "maker",
    saidByName: "Tarnholt",
    saidOn: "2025-02-03" as LocalDate,
    document: "Letter 118",
    scope,
  };
}
const BY_EYE: ComparedByEye = {
  outer: SHELL,
  inner: LINER,
  by: "Inez Calloway",
  on: "2025-04-01" as LocalDate,
};

function check(given: Partial<LabelCheckInput> = {}) {
  return checkLabels({
    outer: aShell(),
    inner: aLiner(),
    modelTable: [],
    acceptedCombinations: [],
    ...given,
  });
}
function row(result: ReturnType<typeof check>, field: LabelField) {
  const found = result.rows.find((each) => each.field === field);
  if (!found) throw new Error(`no row ${field}`);
  return found;
}

describe("readings", () => {
  test("labels that nobody has read are not a match, though the record agrees", () => {
    const result = check({ inner: aLiner({ labelReading: "not yet read" }) });
    expect(result.verdict).toBe("not-read");
    expect(result.reasons).toEqual([{ code: "label-not-read", side: "inner" }]);
  });

  test("a label that cannot be read any more: cannot tell", () => {
    const inner = aLiner({ labelReading: "not legible", label: without("maker", "size", "linerCode") });
    const result = check({ inner });
    expect(result.verdict).toBe("cannot-tell");
    expect(result.reasons).toEqual([{ code: "label-not-legible", side: "inner" }]);
  });

  test("one label unread, the other not legible: both are said", () => {
    const result = check({
      outer: aShell({ labelReading: "not legible" }),
      inner: aLiner({ labelReading: "not yet read" }),
    });
    expect(result.reasons).toEqual([
      { code: "label-not-read", side: "inner" },
      { code: "label-not-legible", side: "outer" },
    ]);
  });

  test("a size that a read label does not show: cannot tell, not a difference", () => {
    const result = check({ inner: aLiner({ label: without("size") }) });
    expect(result.verdict).toBe("cannot-tell");
    expect(result.reasons).toEqual([{ code: "field-unknown", field: "size", side: "inner" }]);
  });

  test("a known difference stops before the label is read", () => {
    const inner = aLiner({ labelReading: "not yet read", label: { size: "44 32 R" } });
    expect(check({ inner }).verdict).toBe("differs");
  });
});

describe("labels compared by eye", () => {
  test("turns unread into a match that names who and when", () => {
    const result = check({ inner: aLiner({ labelReading: "not yet read" }), comparedByEye: BY_EYE });
    expect(result).toMatchObject({ verdict: "match", comparedByEye: BY_EYE, reasons: [] });
  });

  test("is not named where the labels match by themselves", () => {
    expect(check({ comparedByEye: BY_EYE }).comparedByEye).toBeUndefined();
  });

  test("never turns a difference", () => {
    const inner = aLiner({ labelReading: "not yet read", label: { size: "44 32 R" } });
    expect(check({ inner, comparedByEye: BY_EYE }).verdict).toBe("differs");
  });

  test("of another two changes nothing", () => {
    const inner = aLiner({ labelReading: "not legible" });
    expect(check({ inner, comparedByEye: { ...BY_EYE, inner: OTHER } }).verdict).toBe("cannot-tell");
  });
});

describe("a maker's or verified provider's recorded word", () => {
  const shorter = aLiner({ modelId: LINER_MODEL, label: { size: "46 31 R", linerCode: "LK-3" } });
  const both: AcceptedScope = {
    what: "models",
    shellModel: SHELL_MODEL,
    layerModel: LINER_MODEL,
    shellSize: "4632R",
    layerSize: "4631R",
  };

  test.each([
    ["these two pieces", { what: "pieces", shell: SHELL, layer: LINER }, "accepted"],
    [
      "these two pieces, size alone",
      { what: "pieces", shell: SHELL, layer: LINER, differences: ["size"] },
      "differs",
    ],
    ["other pieces", { what: "pieces", shell: SHELL, layer: OTHER }, "differs"],
    ["the two models in these sizes", both, "accepted"],
    ["the two models in other sizes", { ...both, layerSize: "4630R" }, "differs"],
    [
      "the two models, sizes not named",
      { what: "models", shellModel: SHELL_MODEL, layerModel: LINER_MODEL },
      "differs",
    ],
    [
      "one size without the other",
      { what: "models", shellModel: SHELL_MODEL, linerCode: "LK-3", shellSize: "4632R" },
      "differs",
    ],
    [
      "a shell model alone",
      { what: "models", shellModel: SHELL_MODEL, shellSize: "4632R", layerSize: "4631R" },
      "differs",
    ],
    ["the codes", { what: "codes", maker: "Tarnholt", shellTakes: "LK-2", linerCode: "LK-3" }, "differs"],
  ] as const)("that names %s", (_name, scope, verdict) => {
    expect(check({ inner: shorter, acceptedCombinations: [aWord(scope)] }).verdict).toBe(verdict);
  });

  test("accepts a difference in the code alone by codes, for its maker only", () => {
    const inner = aLiner({ label: { linerCode: "LK-3" } });
    const scope = { what: "codes", maker: "TARNHOLT", shellTakes: "LK-2", linerCode: "LK-3" } as const;
    const result = check({ inner, acceptedCombinations: [aWord(scope)] });
    expect(result).toMatchObject({
      verdict: "accepted",
      reasons: [],
      acceptedBy: [{ document: "Letter 118" }],
    });
    expect(row(result, "model-or-code")).toMatchObject({
      verdict: "accepted",
      reasons: [{ code: "takes-another" }],
    });
    const other = { ...scope, maker: "Fenwark" };
    expect(check({ inner, acceptedCombinations: [aWord(other)] }).verdict).toBe("differs");
  });

  test("two words together reach what neither reaches alone", () => {
    const words = [
      aWord({ what: "codes", maker: "Tarnholt", shellTakes: "LK-2", linerCode: "LK-3" }),
      aWord({ what: "pieces", shell: SHELL, layer: LINER, differences: ["size"] }),
    ];
    expect(check({ inner: shorter, acceptedCombinations: words }).acceptedBy).toHaveLength(2);
  });

  test("does not stand in for reading the label", () => {
    const words = [aWord({ what: "pieces", shell: SHELL, layer: LINER })];
    const inner = aLiner({ labelReading: "not yet read", label: { size: "44 32 R" } });
    expect(check({ inner, acceptedCombinations: words }).verdict).toBe("not-read");
    const seen = check({ inner, acceptedCombinations: words, comparedByEye: BY_EYE });
    expect(seen.verdict).toBe("accepted");
  });

  test("settles what the labels cannot tell", () => {
    const words = [aWord({ what: "pieces", shell: SHELL, layer: LINER, differences: ["size"] })];
    expect(check({ inner: aLiner({ label: without("size") }), acceptedCombinations: words }).verdict).toBe(
      "accepted",
    );
  });
});
