import { describe, expect, test } from "vitest";
import type { ModelId, PieceId, Uuid } from "../ids.ts";
import type { MakersLabel, ModelTakes } from "../pieces/label.ts";
import type { LocalDate, MadeOn } from "../time.ts";
import type { AcceptedCombination, AcceptedScope } from "./accepted-combination.ts";
import { checkLabels, type LabelCheckInput } from "./check-labels.ts";
import type { ComparedByEye, InnerPiece, LabelField, OuterPiece } from "./label-verdict.ts";

const SHELL = "0198a000-0000-7000-8000-000000000001" as PieceId;
const LINER = "0198a000-0000-7000-8000-000000000002" as PieceId;
const SHELL_MODEL = "0198a000-0000-7000-8000-00000000000a" as ModelId;
const LINER_MODEL = "0198a000-0000-7000-8000-00000000000b" as ModelId;
const OTHER_MODEL = "0198a000-0000-7000-8000-00000000000c" as ModelId;

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
function aDrd({ label, ...given }: Given<InnerPiece> = {}): InnerPiece {
  return aLiner({
    kind: "drd",
    layer: "drd",
    label: { maker: "Tarnholt", ...without("size", "linerCode"), ...label },
    ...given,
  });
}
function without(...fields: (keyof MakersLabel)[]): MakersLabel {
  return Object.fromEntries(fields.map((field) => [field, undefined]));
}
function takes(row: Partial<ModelTakes>): ModelTakes {
  return { shellModel: SHELL_MODEL, layerKind: "coat-liner", ...row };
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

describe("rows", () => {
  test("come in fixed order, whatever the verdict", () => {
    const orders = [check(), check({ inner: aLiner({ garment: "pants", labelReading: "not yet read" }) })];
    for (const { rows } of orders) {
      const fields = rows.map(({ field }) => field);
      expect(fields).toEqual(["garment", "maker", "model-or-code", "size", "pattern", "made"]);
    }
  });

  test("manufacture dates are shown for both and never compared, a month beside a day", () => {
    const result = check({
      outer: aShell({ label: { madeOn: "2019-05" as MadeOn } }),
      inner: aLiner({ label: { madeOn: "2023-11-02" as MadeOn } }),
    });
    expect(result.verdict).toBe("match");
    expect(row(result, "made")).toMatchObject({ outer: "2019-05", inner: "2023-11-02", verdict: "shown" });
    expect(result.made).toEqual({ outer: "2019-05", inner: "2023-11-02" });
  });

  test("cut numbers, serials and lots of shell and liner may differ (common practice, facts.md 2.2)", () => {
    const result = check({
      outer: aShell({ label: { cutNumber: "1881", serial: "A1", lot: "L1" } }),
      inner: aLiner({ label: { cutNumber: "2204", serial: "B7", lot: "L9" } }),
    });
    expect(result.verdict).toBe("match");
  });
});

test("maker's sample label fields MFG DATE, CUT, MODEL, LINER, SIZE (facts.md S6): code and whole size decide", () => {
  const sample = {
    maker: "Tarnholt",
    modelName: "Ridge 40",
    linerCode: "LK-2",
    cutNumber: "77",
    madeOn: "2015-03-02" as MadeOn,
  };
  const outer = aShell({ label: { ...sample, size: "4632R" } });
  expect(check({ outer, inner: aLiner({ label: { size: "46-32-R" } }) }).verdict).toBe("match");
  expect(check({ outer, inner: aLiner({ label: { size: "4632L" } }) }).verdict).toBe("differs");
});

test("routine inspection sheet (facts.md S5): size compatibility of shell, liner and DRD is looked at for each", () => {
  const wrongSize = check({ inner: aLiner({ label: { size: "44 32 R" } }) });
  expect(wrongSize.reasons).toEqual([{ code: "size-differs", outer: "46 32 R", inner: "44 32 R" }]);
});

test("the wrong liner of the bench picture is told with both reasons at once: code and size", () => {
  const result = check({ inner: aLiner({ label: { linerCode: "LK-3", size: "44 32 R" } }) });
  expect(result.verdict).toBe("differs");
  expect(result.reasons).toEqual([
    { code: "takes-another", takes: ["LK-2"], is: "LK-3", said: "shell-label" },
    { code: "size-differs", outer: "46 32 R", inner: "44 32 R" },
  ]);
});

describe("garment and family", () => {
  test("a pants liner in a coat differs, and no recorded word and no eye turns that", () => {
    const word = aWord({ what: "pieces", shell: SHELL, layer: LINER });
    const inner = aLiner({ garment: "pants", kind: "pants-liner" });
    const result = check({ inner, acceptedCombinations: [word], comparedByEye: BY_EYE });
    expect(result.verdict).toBe("differs");
    expect(result.reasons).toContainEqual({ code: "garment-differs", outer: "coat", inner: "pants" });
  });

  test("a proximity liner in a structural shell differs until the maker's word names it", () => {
    const inner = aLiner({ family: "proximity" });
    expect(check({ inner }).reasons).toEqual([
      { code: "family-differs", outer: "structural", inner: "proximity" },
    ]);
    const words = [aWord({ what: "pieces", shell: SHELL, layer: LINER, differences: ["family"] })];
    expect(check({ inner, acceptedCombinations: words }).verdict).toBe("accepted");
  });

  test("the kinds differ even while both labels are unread", () => {
    const unread = { labelReading: "not yet read", label: without("maker", "size", "linerCode") } as const;
    const result = check({ outer: aShell(unread), inner: aLiner({ ...unread, garment: "pants" }) });
    expect(result.verdict).toBe("differs");
  });
});

describe("model table and liner code", () => {
  test("the table's liner code decides for the shell's model", () => {
    const inner = aLiner({ label: { linerCode: "LK-3" } });
    const modelTable = [takes({ takesLinerCode: "LK-2" })];
    const reason = { code: "takes-another", takes: ["LK-2"], is: "LK-3", said: "model-table" };
    expect(check({ inner, modelTable }).reasons).toEqual([reason]);
  });

  test("the table's liner model fits a liner whose label names no code", () => {
    const outer = aShell({ label: without("linerCode") });
    const inner = aLiner({ modelId: LINER_MODEL, label: without("linerCode") });
    expect(check({ outer, inner, modelTable: [takes({ takesModel: LINER_MODEL })] }).verdict).toBe("match");
    expect(check({ outer, inner, modelTable: [takes({ takesModel: OTHER_MODEL })] }).verdict).toBe("differs");
  });

  test("several rows of the table each let a liner in", () => {
    const modelTable = [takes({ takesLinerCode: "LK-2" }), takes({ takesLinerCode: "LK-3" })];
    expect(check({ inner: aLiner({ label: { linerCode: "LK-3" } }), modelTable }).verdict).toBe("match");
  });

  test("a table that lets a liner in against the code on the shell's label does not make a match", () => {
    const inner = aLiner({ label: { linerCode: "LK-3" } });
    expect(check({ inner, modelTable: [takes({ takesLinerCode: "LK-3" })] }).verdict).toBe("differs");
    const byModel = [takes({ takesModel: LINER_MODEL })];
    expect(
      check({ inner: aLiner({ modelId: LINER_MODEL, label: { linerCode: "LK-3" } }), modelTable: byModel })
        .verdict,
    ).toBe("differs");
  });

  test("a row that names model and code is not met by one of them while the other differs", () => {
    const inner = aLiner({ modelId: OTHER_MODEL });
    const modelTable = [takes({ takesModel: LINER_MODEL, takesLinerCode: "LK-2" })];
    expect(check({ inner, modelTable }).verdict).toBe("differs");
  });

  test("rows of other shell models and other kinds say nothing", () => {
    const modelTable = [
      takes({ shellModel: OTHER_MODEL, takesLinerCode: "LK-9" }),
      takes({ layerKind: "winter-liner", takesLinerCode: "WL-1" }),
    ];
    expect(check({ modelTable }).verdict).toBe("match");
  });

  test("a winter liner is not judged by the liner code on the shell's label", () => {
    const inner = aLiner({ kind: "winter-liner", layer: "winter-liner", label: { linerCode: "WL-1" } });
    expect(check({ inner }).reasons).toEqual([{ code: "nothing-ties", missing: "table-row" }]);
    expect(
      check({ inner, modelTable: [takes({ layerKind: "winter-liner", takesLinerCode: "WL-1" })] }).verdict,
    ).toBe("match");
  });

  test.each([
    ["outer-model", aShellOfUnknownModel(), aLiner()],
    ["table-row", aShell({ label: without("linerCode") }), aLiner()],
    ["inner-code", aShell(), aLiner({ label: without("linerCode") })],
    [
      "inner-model-and-code",
      aShell({ label: without("linerCode") }),
      aLiner({ label: without("linerCode") }),
    ],
  ] as const)("cannot tell, and says what is missing: %s", (missing, outer, inner) => {
    const result = check({ outer, inner });
    expect(result.verdict).toBe("cannot-tell");
    expect(result.reasons).toEqual([{ code: "nothing-ties", missing }]);
  });

  test("a code that differs in its hyphen alone is neither the same nor another", () => {
    const result = check({ inner: aLiner({ label: { linerCode: "LK2" } }) });
    expect(result.reasons).toEqual([{ code: "code-unclear", takes: "LK-2", is: "LK2", said: "shell-label" }]);
  });
});

function aShellOfUnknownModel(): OuterPiece {
  const { modelId: _, ...shell } = aShell({ label: without("linerCode") });
  return shell;
}

describe("DRD", () => {
  const table = [takes({ layerKind: "drd", takesModel: LINER_MODEL, takesModelName: "Strap D" })];
  test.each([undefined, "One size", "OSFA"])("of size %s is decided by model and maker", (size) => {
    const inner = aDrd({ modelId: LINER_MODEL, label: size === undefined ? {} : { size } });
    const result = check({ inner, modelTable: table });
    expect(result.verdict).toBe("match");
    expect(row(result, "size").verdict).toBe("shown");
  });

  test("cannot tell when nothing ties it to the shell", () => {
    expect(check({ inner: aDrd() }).reasons).toEqual([
      { code: "nothing-ties", missing: "inner-model-and-code" },
    ]);
  });

  test("is never tied by the liner code on the shell's label", () => {
    expect(check({ inner: aDrd({ label: { linerCode: "LK-2" } }) }).verdict).toBe("cannot-tell");
  });

  test("of another maker differs", () => {
    const inner = aDrd({ modelId: LINER_MODEL, label: { maker: "Fenwark" } });
    expect(check({ inner, modelTable: table }).reasons).toEqual([
      { code: "maker-differs", outer: "Tarnholt", inner: "Fenwark" },
    ]);
  });

  test("in a letter size beside a coat in chest and length: cannot tell; in the coat's own scale it is compared", () => {
    const sized = (size: string) =>
      check({ inner: aDrd({ modelId: LINER_MODEL, label: { size } }), modelTable: table });
    expect(sized("L").reasons).toEqual([{ code: "size-another-scale", outer: "46 32 R", inner: "L" }]);
    expect(sized("46-32-R").verdict).toBe("match");
    expect(sized("48 32 R").verdict).toBe("differs");
  });
});

describe("pattern", () => {
  test("named by one label only cannot be told; named by neither it is not compared", () => {
    const outer = aShell({ label: { pattern: "Women's" } });
    expect(check({ outer }).reasons).toEqual([{ code: "field-unknown", field: "pattern", side: "inner" }]);
    expect(row(check(), "pattern").verdict).toBe("shown");
  });

  test("men's and women's patterns differ (facts.md 2.4, S59), however they are written", () => {
    const outer = aShell({ label: { pattern: "Women's" } });
    expect(check({ outer, inner: aLiner({ label: { pattern: "MENS" } }) }).verdict).toBe("differs");
    expect(check({ outer, inner: aLiner({ label: { pattern: "womens" } }) }).verdict).toBe("match");
  });
});
