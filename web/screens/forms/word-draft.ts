/** A recorded word as it is typed: what it is about, who says it, in which document; and the act that it becomes. */
import type { AcceptanceState } from "../../../server/domain/register/acceptance.ts";
import { sentence } from "../../look/words.ts";
import { FORM_WORDS } from "../../look/words-forms.ts";
import { sayLongDay } from "../record/days.ts";
import { isAfter, isOneLine, readDay } from "./field-rules.ts";
import type { Problems } from "./register-draft.ts";
import type { CommandOf } from "./use-acts.ts";

export type ScopeKind = AcceptanceState["scope"]["what"];
export type WordToRecord = CommandOf<"recordAcceptance">;

export interface WordDraft {
  readonly what: ScopeKind;
  /** Ids of pieces that were looked up; empty before. */
  readonly shell: string;
  readonly layer: string;
  readonly shellModel: string;
  readonly layerModel: string;
  readonly linerCode: string;
  readonly shellSize: string;
  readonly layerSize: string;
  readonly maker: string;
  readonly shellTakes: string;
  readonly saidBy: AcceptanceState["saidBy"];
  readonly saidByName: string;
  readonly document: string;
  readonly saidOn: string;
}

export const EMPTY_WORD: WordDraft = {
  ...{ what: "pieces", shell: "", layer: "", shellModel: "", layerModel: "", linerCode: "" },
  ...{ shellSize: "", layerSize: "", maker: "", shellTakes: "" },
  ...{ saidBy: "maker", saidByName: "", document: "", saidOn: "" },
};
const words = FORM_WORDS;

/** Longest name and document. Source: schema of recordAcceptance. */
const LONGEST = { saidByName: 120, document: 200, linerCode: 200, maker: 200, shellTakes: 200 } as const;

/** Finds everything that is wrong at once; only the fields of the chosen scope count. */
export function wordProblems(draft: WordDraft, today: string): Problems<WordDraft> {
  const problems: Partial<Record<keyof WordDraft, string>> = scopeProblems(draft);
  if (draft.saidByName.trim() === "") problems.saidByName = words.saidByNeeded;
  if (draft.document.trim() === "") problems.document = words.documentNeeded;
  for (const [field, max] of Object.entries(LONGEST) as [keyof typeof LONGEST, number][]) {
    if (!isOneLine(draft[field], max)) problems[field] = words.oneLine(max);
  }
  const day = readDay(draft.saidOn);
  if (!day) problems.saidOn = words.saidOnNeeded;
  else if (isAfter(day, today)) problems.saidOn = words.madeAhead;
  return problems;
}

function scopeProblems(draft: WordDraft): Partial<Record<keyof WordDraft, string>> {
  const problems: Partial<Record<keyof WordDraft, string>> = {};
  const need = (field: keyof WordDraft, says: string) => {
    if (draft[field].trim() === "") problems[field] = says;
  };
  switch (draft.what) {
    case "pieces":
      need("shell", words.lookUpFirst);
      need("layer", words.lookUpFirst);
      return problems;
    case "models":
      need("shellModel", words.chooseFirst);
      if (draft.layerModel === "" && draft.linerCode.trim() === "") problems.layerModel = words.takesEither;
      if ((draft.shellSize.trim() === "") !== (draft.layerSize.trim() === "")) {
        problems[draft.shellSize.trim() === "" ? "shellSize" : "layerSize"] = words.bothSizes;
      }
      return problems;
    case "codes":
      need("maker", words.makerNeeded);
      need("shellTakes", words.fillThis);
      need("linerCode", words.fillThis);
      return problems;
    default:
      return draft.what satisfies never;
  }
}

/** Makes the act of a draft without problems. */
export function wordOfDraft(draft: WordDraft, id: string): WordToRecord {
  return {
    ...{ id, scope: scopeOf(draft), saidBy: draft.saidBy, saidByName: draft.saidByName.trim() },
    ...{ document: draft.document.trim(), saidOn: draft.saidOn },
  };
}

function scopeOf(draft: WordDraft): WordToRecord["scope"] {
  const [linerCode, shellSize, layerSize] = [
    draft.linerCode.trim(),
    draft.shellSize.trim(),
    draft.layerSize.trim(),
  ];
  switch (draft.what) {
    case "pieces":
      return { what: "pieces", shell: draft.shell, layer: draft.layer };
    case "models":
      return {
        ...{ what: "models", shellModel: draft.shellModel },
        ...(draft.layerModel ? { layerModel: draft.layerModel } : {}),
        ...(linerCode ? { linerCode } : {}),
        ...(shellSize && layerSize ? { shellSize, layerSize } : {}),
      };
    case "codes":
      return { what: "codes", maker: draft.maker.trim(), shellTakes: draft.shellTakes.trim(), linerCode };
    default:
      return draft.what satisfies never;
  }
}

/** Says what a word is about, with the names that came with it. */
export function sayScope(scope: AcceptanceState["scope"], names: Readonly<Record<string, string>>): string {
  const nameOf = (id: string) => names[id] ?? id;
  switch (scope.what) {
    case "pieces":
      return sentence(words.scopePieces(nameOf(scope.shell), nameOf(scope.layer)));
    case "models": {
      const layer = [
        scope.layerModel && nameOf(scope.layerModel),
        scope.linerCode && words.liner(scope.linerCode),
      ];
      const { shellSize, layerSize } = scope;
      const sizes = shellSize && layerSize ? words.scopeSizes(shellSize, layerSize) : "";
      return `${words.scopeModels(nameOf(scope.shellModel), layer.filter(Boolean).join(", "))}${sizes}`;
    }
    case "codes":
      return words.scopeCodes(scope.maker, scope.shellTakes, scope.linerCode);
    default:
      return scope satisfies never;
  }
}

/** Says who said it, in what, on which day. */
export function sayWhoSaid({ saidByName, document, saidOn }: AcceptanceState): string {
  return words.wordLine(saidByName, document, sayLongDay(saidOn));
}
