import { parseUuid, type Uuid } from "../domain/ids.ts";
import type { ActView, EntryBody, Names } from "../domain/piece-view.ts";
import { readEntryBytes } from "../ledger/entry-bytes.ts";
import { nameAccount } from "./names.ts";
import { wireInstant } from "./piece-from-row.ts";

/** An entry of a piece or of a tag with its act, as a query tells it; instants are text. */
export interface ToldRow {
  readonly subject: string;
  readonly subject_kind: "piece" | "tag";
  readonly version: number;
  readonly act: string;
  readonly n: number;
  readonly body: string;
  readonly position: number;
  readonly command: string;
  readonly at: string;
  readonly recorded_at: string;
  readonly by: string;
}

/** Puts entries together by the act that wrote them, newest act first, entries in the order of the act. */
export function actsFromRows(rows: readonly ToldRow[], names: Names): ActView[] {
  const acts = new Map<number, ActView & { entries: EntryBody[] }>();
  for (const row of [...rows].sort((a, b) => b.position - a.position || a.n - b.n)) {
    const known = acts.get(row.position);
    if (known) known.entries.push(bodyFromRow(row));
    else {
      acts.set(row.position, {
        act: row.act as Uuid,
        position: row.position,
        command: row.command,
        at: wireInstant(row.at),
        recordedAt: wireInstant(row.recorded_at),
        by: nameAccount(row.by, names),
        entries: [bodyFromRow(row)],
      });
    }
  }
  return [...acts.values()];
}

/** Members of entries whose ids name nothing that a screen shows. */
const UNNAMED = new Set(["run", "acceptance", "load"]);

/** Collects the ids that entries speak of, so that they can be named. */
export function idsTold(value: unknown): string[] {
  if (typeof value === "string") return parseUuid(value) ? [value] : [];
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([name, part]) => (UNNAMED.has(name) ? [] : idsTold(part)));
}

function bodyFromRow(row: ToldRow): EntryBody {
  const { subject, version, subject_kind: subjectKind } = row;
  return { subjectKind, subject, version, entry: readEntryBytes(Buffer.from(row.body)) } as EntryBody;
}
