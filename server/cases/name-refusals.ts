import { parseUuid, type Uuid } from "../domain/ids.ts";
import type { SubjectNames } from "../domain/phrase.ts";
import type { Refusal } from "../domain/refusal.ts";
import { departmentZone } from "../store/days.ts";
import type { Db } from "../store/db.ts";
import { nameSubjects } from "../store/name-subjects.ts";

/** What refusals need to be put into words: what each id is called, and the department's time zone. */
export interface NamedRefusals {
  readonly names: SubjectNames;
  readonly timeZone: string;
}

/** Names every id that stands in the refusals. */
export async function nameRefusals(db: Db, refusals: readonly Refusal[]): Promise<NamedRefusals> {
  const [named, timeZone] = await Promise.all([nameSubjects(db, idsIn(refusals)), departmentZone(db)]);
  return { names: Object.fromEntries([...named].map(([id, { name }]) => [id, name])), timeZone };
}

function idsIn(value: unknown): Uuid[] {
  if (typeof value === "string") {
    const id = parseUuid(value);
    return id ? [id] : [];
  }
  return typeof value === "object" && value !== null ? Object.values(value).flatMap(idsIn) : [];
}
