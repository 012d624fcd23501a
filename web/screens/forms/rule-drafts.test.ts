import { describe, expect, it } from "vitest";
import type { ModelId } from "../../../server/domain/ids.ts";
import type { KindState } from "../../../server/domain/register/kind.ts";
import { STANDARD_KINDS } from "../../../server/domain/register/standard-kinds.ts";
import {
  EMPTY_MODEL,
  layersFor,
  type ModelDraft,
  modelOfDraft,
  modelProblems,
  withKind,
} from "./model-draft.ts";
import { EMPTY_WORD, sayScope, type WordDraft, wordOfDraft, wordProblems } from "./word-draft.ts";

const today = "2026-11-24";
const kinds = STANDARD_KINDS as readonly KindState[];

describe("a row of the model table", () => {
  const k9: ModelDraft = { ...withKind(EMPTY_MODEL, "coat-shell"), maker: "Tarnholt", name: "K9" };

  it("of a coat shell starts with the layers that a coat usually needs, of a helmet with none", () => {
    expect(k9.layers).toEqual(["coat-liner", "drd"]);
    expect(withKind(k9, "helmet").layers).toEqual([]);
  });

  it("takes layers of its own garment and family alone", () => {
    expect(layersFor("coat-shell", kinds).map(({ code }) => code)).toEqual([
      ...["coat-liner", "drd", "winter-liner"],
    ]);
    expect(layersFor("pants-shell", kinds).map(({ code }) => code)).toEqual(["pants-liner"]);
    expect(layersFor("coat-liner", kinds)).toEqual([]);
  });

  it("names a model or a code for each layer that it takes", () => {
    const half = { layerKind: "coat-liner", takesModel: "", takesLinerCode: " " };
    expect(Object.keys(modelProblems({ ...k9, takes: [half] }, today))).toEqual(["takes"]);
    const whole = { ...half, takesLinerCode: " LK-2 " };
    expect(modelProblems({ ...k9, takes: [whole] }, today)).toEqual({});
    expect(modelOfDraft({ ...k9, takes: [whole], wash: "machine", sourceOn: "2026-02-03" }, "m1")).toEqual({
      ...{ id: "m1", maker: "Tarnholt", name: "K9", kind: "coat-shell", layers: ["coat-liner", "drd"] },
      ...{ takes: [{ layerKind: "coat-liner", takesLinerCode: "LK-2" }], wash: "machine" },
      source: { what: "maker's letter", on: "2026-02-03" },
    });
  });

  it("has every problem at once, and a letter of tomorrow is none", () => {
    const problems = modelProblems({ ...EMPTY_MODEL, sourceOn: "2026-11-25" }, today);
    expect(Object.keys(problems).sort()).toEqual(["kind", "maker", "name", "sourceOn"]);
  });
});

describe("a maker's word", () => {
  const said = { saidByName: "Tarnholt", document: "letter 7", saidOn: "2026-02-03" };
  const about = (changes: Partial<WordDraft>): WordDraft => ({ ...EMPTY_WORD, ...said, ...changes });
  const problemsOf = (changes: Partial<WordDraft>) => Object.keys(wordProblems(about(changes), today)).sort();

  it("about two pieces needs both looked up, a document and a day", () => {
    expect(Object.keys(wordProblems(EMPTY_WORD, today)).sort()).toEqual(
      ["document", "layer", "saidByName", "saidOn", "shell"].sort(),
    );
    expect(wordOfDraft(about({ shell: "s", layer: "l", linerCode: "left over" }), "w").scope).toEqual({
      ...{ what: "pieces", shell: "s", layer: "l" },
    });
  });

  it("about models names a layer model or a code, and both sizes or none", () => {
    expect(problemsOf({ what: "models", shellModel: "m" })).toEqual(["layerModel"]);
    expect(problemsOf({ what: "models", shellModel: "m", linerCode: "LK-3", shellSize: "46" })).toEqual([
      "layerSize",
    ]);
    const whole = {
      what: "models",
      shellModel: "m",
      layerModel: "n",
      shellSize: "46",
      layerSize: "44",
    } as const;
    expect(problemsOf(whole)).toEqual([]);
    expect(wordOfDraft(about(whole), "w").scope).toEqual(whole);
  });

  it("about codes names maker and both codes", () => {
    expect(problemsOf({ what: "codes" })).toEqual(["linerCode", "maker", "shellTakes"]);
  });

  it("of a day that has not come is none", () => {
    expect(problemsOf({ shell: "s", layer: "l", saidOn: "2026-11-25" })).toEqual(["saidOn"]);
  });

  it("is said with the names of what it is about", () => {
    const scope = { what: "models", shellModel: "m" as ModelId, linerCode: "LK-4" } as const;
    expect(sayScope(scope, { m: "Tarnholt K7" })).toBe("Tarnholt K7 with liner code LK-4");
  });
});
