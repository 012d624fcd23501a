/** A row of the model table as it is typed, and the act that it becomes. */
import type { KindState } from "../../../server/domain/register/kind.ts";
import type { ModelFacts, ModelSource } from "../../../server/domain/register/model.ts";
import type { ModelShown } from "../../../server/domain/register/register-views.ts";
import { usualLayers } from "../../../server/domain/register/standard-kinds.ts";
import { FORM_WORDS } from "../../look/words-forms.ts";
import { isAfter, isOneLine, readDay, WORDS_MAX } from "./field-rules.ts";
import type { Problems } from "./register-draft.ts";
import type { CommandOf } from "./use-acts.ts";

export interface TakesDraft {
  readonly layerKind: string;
  readonly takesModel: string;
  readonly takesLinerCode: string;
}
export interface ModelDraft {
  readonly maker: string;
  readonly name: string;
  readonly kind: string;
  readonly layers: readonly string[];
  readonly takes: readonly TakesDraft[];
  readonly wash: "" | NonNullable<ModelFacts["wash"]>;
  readonly sourceWhat: ModelSource;
  readonly sourceOn: string;
}
export type ModelToWrite = CommandOf<"describeModels">["models"][number];

export const EMPTY_MODEL: ModelDraft = {
  ...{ maker: "", name: "", kind: "", layers: [], takes: [], wash: "", sourceOn: "" },
  sourceWhat: "maker's letter",
};
const words = FORM_WORDS;

export function draftOfModel(model: ModelShown): ModelDraft {
  const { maker, name, kind, layers, wash = "", source } = model;
  const takes = model.takes.map(({ layerKind, takesModel = "", takesLinerCode = "" }) => ({
    ...{ layerKind, takesModel, takesLinerCode },
  }));
  return {
    ...{ maker, name, kind, layers, wash, takes },
    ...{ sourceWhat: source.what, sourceOn: source.on ?? "" },
  };
}

/** Lists the kinds that can go into a shell: layers of the same garment and family. Nothing goes into any other kind. */
export function layersFor(kindCode: string, kinds: readonly KindState[]): readonly KindState[] {
  const shell = kinds.find(({ code }) => code === kindCode);
  if (shell?.layer !== "shell") return [];
  return kinds.filter(
    ({ layer, garment, family }) =>
      layer !== undefined && layer !== "shell" && garment === shell.garment && family === shell.family,
  );
}

/** Changes the kind of a row: a shell starts with the layers that its kind usually needs. */
export function withKind(draft: ModelDraft, kind: string): ModelDraft {
  return { ...draft, kind, layers: usualLayers(kind), takes: [] };
}

export function modelProblems(draft: ModelDraft, today: string): Problems<ModelDraft> {
  const problems: Partial<Record<keyof ModelDraft, string>> = {};
  if (draft.kind === "") problems.kind = words.kindNeeded;
  if (draft.maker.trim() === "") problems.maker = words.makerNeeded;
  if (draft.name.trim() === "") problems.name = words.nameNeeded;
  for (const field of ["maker", "name"] as const) {
    if (!isOneLine(draft[field], WORDS_MAX)) problems[field] = words.oneLine(WORDS_MAX);
  }
  if (draft.takes.some((row) => !isTakesWhole(row))) problems.takes = words.takesEither;
  if (draft.sourceOn !== "") {
    if (!readDay(draft.sourceOn)) problems.sourceOn = words.dayWrong;
    else if (isAfter(draft.sourceOn, today)) problems.sourceOn = words.madeAhead;
  }
  return problems;
}

/** Tells whether a row says which layer it is of and names a model or a code for it. */
export function isTakesWhole({ layerKind, takesModel, takesLinerCode }: TakesDraft): boolean {
  return layerKind !== "" && (takesModel !== "" || takesLinerCode.trim() !== "");
}

export function modelOfDraft(draft: ModelDraft, id: string): ModelToWrite {
  return {
    ...{
      id,
      maker: draft.maker.trim(),
      name: draft.name.trim(),
      kind: draft.kind,
      layers: [...draft.layers],
    },
    takes: draft.takes.map(({ layerKind, takesModel, takesLinerCode }) => {
      const code = takesLinerCode.trim();
      return {
        layerKind,
        ...(takesModel ? { takesModel } : {}),
        ...(code ? { takesLinerCode: code } : {}),
      };
    }),
    ...(draft.wash ? { wash: draft.wash } : {}),
    source: { what: draft.sourceWhat, ...(draft.sourceOn ? { on: draft.sourceOn } : {}) },
  };
}
