import type { EntryBody, Names } from "../../../server/domain/piece-view.ts";
import type { RecordWords } from "../../look/words-record.ts";

type PieceEntry = Extract<EntryBody, { subjectKind: "piece" }>["entry"];
type Moved = Extract<PieceEntry, { kind: "PieceMoved" }>;

/** Says what an entry holds beside its main sentence: purpose, condition, who released and received, what was let pass. */
export function entryMore(body: EntryBody, names: Names, words: RecordWords): readonly string[] {
  if (body.subjectKind !== "piece") return [];
  const { entry } = body;
  if (entry.kind === "EntryCorrected" && entry.instead?.kind === "PieceMoved") {
    return movedMore(entry.instead, names, words);
  }
  return entry.kind === "PieceMoved" ? movedMore(entry, names, words) : [];
}

function movedMore(entry: Moved, names: Names, { move, letPass }: RecordWords): readonly string[] {
  const who = (id: string) => names[id]?.name ?? "somebody who is not on record";
  const isTold = ["issue", "turn in", "transfer"].includes(entry.purpose);
  const isIssue = entry.purpose === "issue";
  const parts = [
    !isTold && move.purpose(entry.purpose),
    entry.condition && move.condition(entry.condition),
    entry.releasedBy && move.releasedBy(who(entry.releasedBy)),
    entry.receivedBy && move.receivedBy(who(entry.receivedBy)),
    isIssue && (entry.fitSeenBy ? move.fitSeen(who(entry.fitSeenBy)) : move.fitNotRecorded),
    entry.document && move.document(entry.document),
    entry.despite?.length &&
      move.despite(entry.despite.map((code) => letPass[code] ?? code.replaceAll("-", " "))),
  ];
  return parts.filter((part): part is string => typeof part === "string");
}
