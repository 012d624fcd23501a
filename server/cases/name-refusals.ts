import { parseUuid, type Uuid } from "../domain/ids.ts";
import type { SubjectNames } from "../domain/phrase.ts";
import type { Refusal } from "../domain/refusal.ts";
import type { Db } from "../store/db.ts";
import { nameSubjects } from "../store/name-subjects.ts";

/** Gives the display text of every id that stands in the refusals, so that they can be put into words. */
export async function nameRefusals(db: Db, refusals: readonly Refusal[]): Promise<SubjectNames> {
  const named = await nameSubjects(db, idsIn(refusals));
  return Object.fromEntries([...named].map(([id, { name }]) => [id, name]));
}

function idsIn(value: unknown): Uuid[] {
  if (typeof value === "string") {
    const id = parseUuid(value);
    return id ? [id] : [];
  }
  return typeof value === "object" && value !== null ? Object.values(value).flatMap(idsIn) : [];
}
