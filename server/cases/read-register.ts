import { writeCsvFile } from "../domain/intake/csv-write.ts";
import { layOutModels } from "../domain/intake/write-model-table.ts";
import type { AcceptancesShown, ModelShown } from "../domain/register/register-views.ts";
import type { Db } from "../store/db.ts";
import { idsInScope, listAcceptances, listModels } from "../store/list-register.ts";
import { nameSubjects } from "../store/name-subjects.ts";

export { listKinds, listOutside, listProviders, readSettings } from "../store/list-register.ts";

/** Reads the model table with the name of whoever vouches for each row. */
export async function readModels(db: Db): Promise<readonly ModelShown[]> {
  const models = await listModels(db);
  const named = await nameSubjects(
    db,
    models.map(({ source }) => source.by),
  );
  return models.map((model) => ({
    ...model,
    sourceBy: named.get(model.source.by)?.name ?? "somebody no longer on record",
  }));
}

/** Writes the model table as a file that comes in the same. Who recorded a source does not go out. */
export async function writeModelTable(db: Db): Promise<string> {
  const models = await listModels(db);
  const byId = new Map(models.map((model) => [model.id, model]));
  return writeCsvFile(
    layOutModels(
      models.map((facts) => ({
        facts,
        takenNames: facts.takes.map(({ takesModel }) => takesModel && byId.get(takesModel)),
      })),
    ),
  );
}

/** Reads the recorded words with the names of the pieces and models that they speak of. */
export async function readAcceptances(db: Db): Promise<AcceptancesShown> {
  const acceptances = await listAcceptances(db);
  const named = await nameSubjects(
    db,
    acceptances.flatMap(({ scope }) => idsInScope(scope)),
  );
  return { acceptances, names: Object.fromEntries([...named].map(([id, { name }]) => [id, name])) };
}
