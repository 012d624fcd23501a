import { nameRefusals } from "../cases/name-refusals.ts";
import type { Refusal } from "../domain/refusal.ts";
import { phraseRefusal } from "../domain/refusal-words.ts";
import type { JobEnd, JobSetting } from "./job-order.ts";

/** A file or a run of thousands is not answered by thousands of sentences. */
export const MOST_REASONS = 20;

/** Says the first reasons of a refused act in words. */
export async function sayRefusals(
  refusals: readonly Refusal[],
  { db }: Pick<JobSetting, "db">,
): Promise<JobEnd> {
  const told = refusals.slice(0, MOST_REASONS);
  const { names } = await nameRefusals(db, told);
  return {
    reasons: told.map((refusal) => {
      const { what, why, next } = phraseRefusal(refusal, names);
      return { code: refusal.code, what, why, next };
    }),
  };
}
