import { type PieceId, parseUuid } from "../domain/ids.ts";
import { parseTagNumber } from "../domain/tags/tag-number.ts";
import { checkAct, checkLink, NO_ACTS } from "../ledger/check-chain.ts";
import type { Finding } from "../ledger/finding.ts";
import { checkEntries, compareBatch } from "../store/check-batch.ts";
import type { Db } from "../store/db.ts";
import { atOneMoment } from "../store/snapshot.ts";
import { actsOfSubject } from "../store/walk-acts.ts";
import { keptSubject } from "../store/walk-subjects.ts";

/** What a check of one piece came to. */
export interface PieceVerification {
  readonly piece: PieceId;
  readonly entries: number;
  readonly acts: number;
  readonly findings: readonly Finding[];
}

/** Finds a piece by its id or by the number of a tag that names it, superseded ones included. */
export async function findPiece(db: Db, text: string): Promise<PieceId | undefined> {
  const id = parseUuid(text.trim());
  if (id) {
    const row = await db
      .selectFrom("entry")
      .select("subject")
      .where("subject", "=", id)
      .where("subject_kind", "=", "piece")
      .limit(1)
      .executeTakeFirst();
    return row && (id as PieceId);
  }
  const number = parseTagNumber(text);
  if (!number) return undefined;
  const tag = await db.selectFrom("tag").select("piece").where("number", "=", number).executeTakeFirst();
  return (tag?.piece as PieceId | null | undefined) ?? undefined;
}

/**
 * Checks one piece: its entries against their bytes and versions, each act that wrote them with all of its entries and
 * its link to the act before, and the piece's rows in every projected table. Reads no other piece.
 */
export function verifyPiece(db: Db, piece: PieceId): Promise<PieceVerification> {
  return atOneMoment(db, async ({ aside }) => {
    const subject = await keptSubject(aside, piece);
    const acts = await actsOfSubject(aside, piece);
    const findings: Finding[] = [];
    for (const { act, before } of acts) {
      const isFirst = act.position === 1;
      findings.push(
        ...checkLink(before ?? (isFirst ? NO_ACTS : goneBefore(act.position)), act),
        ...checkAct(act),
      );
    }
    const known = new Set<string>(acts.map(({ act }) => act.id));
    for (const { version, act } of subject.entries) {
      if (!known.has(act)) findings.push({ code: "entry-without-act", subject: piece, version, act });
    }
    const checked = checkEntries({ subjects: [subject], range: { from: piece, through: piece } });
    findings.push(...checked.findings, ...(await compareBatch(aside, checked)));
    return { piece, entries: subject.entries.length, acts: acts.length, findings };
  });
}

/** Stands for an act that should be before another and is not: the gap is then told as a missing act. */
function goneBefore(position: number) {
  return { ...NO_ACTS, position: position - 2 };
}
