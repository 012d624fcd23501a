import type { PieceId, TagId } from "../domain/ids.ts";
import { foldTag, type TagOnRecord } from "../domain/tags/tag-entries.ts";
import type { TagNumber } from "../domain/tags/tag-number.ts";
import { type ActScope, entriesOf, takeSubjects } from "./act-scope.ts";

/** Locks and reads the tags with these numbers, and all tags that these pieces ever carried. */
export async function takeTags(
  scope: ActScope,
  numbers: readonly TagNumber[],
  pieces: readonly PieceId[] = [],
): Promise<readonly TagOnRecord[]> {
  if (numbers.length === 0 && pieces.length === 0) return [];
  const rows = await scope.tx
    .selectFrom("tag")
    .select("id")
    .where((eb) =>
      eb.or([
        ...(numbers.length > 0 ? [eb("number", "in", numbers)] : []),
        ...(pieces.length > 0 ? [eb("piece", "in", pieces)] : []),
      ]),
    )
    .execute();
  return takeTagIds(
    scope,
    rows.map(({ id }) => id as TagId),
  );
}

/** Locks and reads the tags of one print run. */
export async function takeRun(scope: ActScope, run: string): Promise<readonly TagOnRecord[]> {
  const rows = await scope.tx.selectFrom("tag").select("id").where("run", "=", run).execute();
  return takeTagIds(
    scope,
    rows.map(({ id }) => id as TagId),
  );
}

async function takeTagIds(scope: ActScope, ids: readonly TagId[]): Promise<readonly TagOnRecord[]> {
  await takeSubjects(scope, "tag", ids);
  return ids.flatMap((id) => foldTag(id, entriesOf(scope, "tag", id)) ?? []);
}
