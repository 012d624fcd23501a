import type { ModelId } from "../ids.ts";
import type { ModelFacts } from "../register/model.ts";
import type { ModelDraft } from "./read-model-table.ts";
import { modelKey } from "./register-index.ts";

/** A model as the register has it. */
export interface KnownModel extends ModelFacts {
  readonly id: ModelId;
}

/** A model to describe; who says so is added when the act is written. */
export interface ModelToDescribe extends Omit<ModelFacts, "source"> {
  readonly id: ModelId;
  readonly source: Omit<ModelFacts["source"], "by">;
}

/** What a file comes to: new models, models that it describes otherwise, and those that the register says already. */
export interface PlannedModels {
  readonly fresh: readonly ModelToDescribe[];
  readonly changed: readonly ModelToDescribe[];
  readonly same: number;
}

/**
 * Plans a model table against the register. A row is found again by maker, name and kind. What the file says
 * replaces; layers, wash and takes that it leaves blank stay. A model that a row takes is the
 * register's or the file's own: readModelTable parked all others.
 */
export function planModels(
  drafts: readonly ModelDraft[],
  known: readonly KnownModel[],
  drawId: () => ModelId,
): PlannedModels {
  const keyOf = ({ maker, name, kind }: Pick<ModelFacts, "maker" | "name" | "kind">) =>
    modelKey(maker, name, kind);
  const byKey = new Map(known.map((model) => [keyOf(model), model]));
  const ids = new Map(known.map((model) => [keyOf(model), model.id]));
  for (const draft of drafts) if (!ids.has(keyOf(draft))) ids.set(keyOf(draft), drawId());
  const fresh: ModelToDescribe[] = [];
  const changed: ModelToDescribe[] = [];
  let same = 0;
  for (const draft of drafts) {
    const before = byKey.get(keyOf(draft));
    const id = ids.get(keyOf(draft));
    if (!id) continue;
    const model = toDescribe(id, draft, before, ids);
    if (!before) fresh.push(model);
    else if (isSaid(model, before)) same += 1;
    else changed.push(model);
  }
  return { fresh, changed, same };
}

function toDescribe(
  id: ModelId,
  draft: ModelDraft,
  before: KnownModel | undefined,
  ids: ReadonlyMap<string, ModelId>,
): ModelToDescribe {
  const { maker, name, kind, source } = draft;
  const wash = draft.wash ?? before?.wash;
  return {
    ...{ id, maker, name, kind, source },
    layers: draft.layers ?? before?.layers ?? [],
    takes:
      draft.takes.length === 0 && before
        ? before.takes
        : draft.takes.map(({ layerKind, takesModel, takesLinerCode }) => {
            const taken = takesModel && ids.get(modelKey(takesModel.maker, takesModel.name, layerKind));
            return {
              layerKind,
              ...(taken ? { takesModel: taken } : {}),
              ...(takesLinerCode === undefined ? {} : { takesLinerCode }),
            };
          }),
    ...(wash ? { wash } : {}),
  };
}

/** The register says it already when every fact is the same; who said it before stays. */
function isSaid(model: ModelToDescribe, before: KnownModel): boolean {
  const facts = ({ maker, name, kind, layers, wash, takes, source }: ModelToDescribe) => [
    ...[maker, name, kind, wash ?? null, source.what, source.on ?? null, ...layers, "takes"],
    ...takes.flatMap(({ layerKind, takesModel = null, takesLinerCode = null }) => [
      layerKind,
      takesModel,
      takesLinerCode,
    ]),
  ];
  return JSON.stringify(facts(model)) === JSON.stringify(facts(before));
}
