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

/** Reads the recorded words with the names of the pieces and models that they speak of. */
export async function readAcceptances(db: Db): Promise<AcceptancesShown> {
  const acceptances = await listAcceptances(db);
  const named = await nameSubjects(
    db,
    acceptances.flatMap(({ scope }) => idsInScope(scope)),
  );
  return { acceptances, names: Object.fromEntries([...named].map(([id, { name }]) => [id, name])) };
}
