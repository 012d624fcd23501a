import type { Db } from "../store/db.ts";
import { nameSubjects } from "../store/name-subjects.ts";

/** Gives the display text of ids; an id that nothing is known of is "somebody no longer on record". */
export async function nameIds(db: Db, ids: readonly string[]): Promise<(id: string) => string> {
  const named = new Map([...(await nameSubjects(db, ids))].map(([id, { name }]) => [String(id), name]));
  return (id) => named.get(id) ?? "somebody no longer on record";
}
