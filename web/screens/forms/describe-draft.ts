/** What a piece's label said before and says now: only what changed is written, and what was emptied is unknown after all. */
import type { PieceView } from "../../../server/domain/piece-view.ts";
import type { LabelReading } from "../../../server/domain/pieces/label.ts";
import { FORM_WORDS } from "../../look/words-forms.ts";
import { isOneLine, NOTE_MAX, readCents, readMadeOn, sayCents, WORDS_MAX } from "./field-rules.ts";
import {
  EMPTY_FILE,
  EMPTY_LABEL,
  type FileDraft,
  fileProblems,
  LABEL_FIELDS,
  type LabelDraft,
  labelProblems,
  ownerOfDraft,
  type Problems,
} from "./register-draft.ts";
import type { CommandOf } from "./use-acts.ts";

export interface DescribeDraft extends LabelDraft, FileDraft {
  readonly reading: LabelReading;
  readonly note: string;
}
export type DescribeCommand = CommandOf<"describePiece">;

/** Fills the form from the record. */
export function draftOfPiece(piece: PieceView): DescribeDraft {
  const { label, labelReading, owner, inServiceOn, funding = "", purchaseOrder = "", priceCents } = piece;
  return {
    ...{ ...EMPTY_LABEL, ...label, ...EMPTY_FILE },
    ...{ ownerKind: owner.kind, ownerId: owner.id ?? "", inServiceOn: inServiceOn ?? "" },
    ...{ funding, purchaseOrder, price: priceCents === undefined ? "" : sayCents(priceCents) },
    ...{ reading: labelReading === "not yet read" ? "read" : labelReading, note: "" },
  };
}

export function describeProblems(draft: DescribeDraft, today: string): Problems<DescribeDraft> {
  const problems: Partial<Record<keyof DescribeDraft, string>> = {
    ...labelProblems(draft, today),
    ...fileProblems(draft),
  };
  if (draft.note.trim().length > NOTE_MAX) problems.note = FORM_WORDS.noteTooLong;
  const isSilent = LABEL_FIELDS.every((field) => draft[field].trim() === "");
  if (draft.reading === "read" && isSilent) problems.reading = FORM_WORDS.readingSaysNothing;
  return problems;
}

/**
 * Makes the act of what changed; undefined when nothing did. It names the version that the form was filled from, so
 * that nobody writes over what somebody else wrote meanwhile.
 */
export function describeCommand(piece: PieceView, draft: DescribeDraft): DescribeCommand | undefined {
  const label = changedLabel(piece, draft);
  const file = changedFile(piece, draft);
  const reading = draft.reading === piece.labelReading ? {} : { reading: draft.reading };
  const changes = [label, file, reading].flatMap((part) => Object.keys(part));
  if (changes.length === 0) return undefined;
  const note = draft.note.trim();
  return {
    ...{ piece: piece.id, label, file, ...reading },
    ...(note ? { note } : {}),
    reliedOn: { version: piece.version },
  };
}

function changedLabel({ label }: PieceView, draft: DescribeDraft): DescribeCommand["label"] {
  const changed: Record<string, string | null> = {};
  for (const field of LABEL_FIELDS) {
    const typed = draft[field].trim();
    const now = typed === "" ? null : field === "madeOn" ? (readMadeOn(typed) ?? typed) : typed;
    if (now !== (label[field] ?? null)) changed[field] = now;
  }
  return changed;
}

function changedFile(piece: PieceView, draft: DescribeDraft): DescribeCommand["file"] {
  const [funding, purchaseOrder] = [draft.funding.trim() || null, draft.purchaseOrder.trim() || null];
  const priceCents = readCents(draft.price) ?? null;
  const owner = ownerOfDraft(draft);
  const isOther = owner.kind !== piece.owner.kind || owner.id !== piece.owner.id;
  const since = draft.inServiceOn || null;
  return {
    ...(isOther ? { owner } : {}),
    ...(funding === (piece.funding ?? null) ? {} : { funding }),
    ...(purchaseOrder === (piece.purchaseOrder ?? null) ? {} : { purchaseOrder }),
    ...(priceCents === (piece.priceCents ?? null) ? {} : { priceCents }),
    ...(since === (piece.inServiceOn ?? null) ? {} : { inServiceOn: since }),
  };
}

/** Says what a field had before, where it has something else now; what was emptied becomes unknown. */
export function wasBefore(piece: PieceView, field: keyof LabelDraft, typed: string): string | undefined {
  const was = piece.label[field];
  if (was === undefined || typed.trim() === was) return undefined;
  return typed.trim() === "" ? FORM_WORDS.becomesUnknown(was) : FORM_WORDS.wasBefore(was);
}

/** Tells whether a code can be bound: one line of at most 400 characters. Source: schema of bindForeignCode. */
export function isBindable(code: string): boolean {
  return code.trim() !== "" && isOneLine(code, 2 * WORDS_MAX);
}
