import type { ModelFacts } from "../register/model.ts";
import { MODEL_COLUMNS, type ModelField } from "./columns.ts";

/** A model with the names of the models that it takes, in the order of its takes. */
export interface WrittenModel {
  readonly facts: ModelFacts;
  readonly takenNames: readonly ({ readonly maker: string; readonly name: string } | undefined)[];
}

/**
 * Lays the model table out as rows under its headers, one row a layer that a model takes, so that what goes out comes
 * in the same. Kinds go out as codes. Who recorded a source does not go out: people are not named in files.
 */
export function layOutModels(models: readonly WrittenModel[]): readonly (readonly string[])[] {
  return [MODEL_COLUMNS.map(({ header }) => header), ...models.flatMap(rowsOf)];
}

function rowsOf({ facts, takenNames }: WrittenModel): readonly (readonly string[])[] {
  const shared: Partial<Record<ModelField, string | undefined>> = {
    maker: facts.maker,
    name: facts.name,
    kind: facts.kind,
    layers: facts.layers.length === 0 ? "none" : facts.layers.join(" + "),
    wash: facts.wash,
    source: facts.source.what,
    sourceOn: facts.source.on,
  };
  const takes: readonly Partial<Record<ModelField, string | undefined>>[] = facts.takes.map((row, n) => {
    const taken = takenNames[n];
    return {
      takesKind: row.layerKind,
      takesModel: taken?.name,
      takesMaker: taken && taken.maker !== facts.maker ? taken.maker : undefined,
      takesCode: row.takesLinerCode,
    };
  });
  return (takes.length === 0 ? [{}] : takes).map((row) =>
    MODEL_COLUMNS.map(({ field }) => row[field] ?? shared[field] ?? ""),
  );
}
