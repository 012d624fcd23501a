/** What is typed on the register form, and the piece that it becomes. */
import type { LabelReading } from "../../../server/domain/pieces/label.ts";
import type { Owner } from "../../../server/domain/pieces/piece-entries.ts";
import { FORM_WORDS } from "../../look/words-forms.ts";
import { isAfter, isOneLine, NOTE_MAX, readCents, readDay, readMadeOn, WORDS_MAX } from "./field-rules.ts";
import type { CommandOf } from "./use-acts.ts";

export type PieceToRegister = CommandOf<"registerPieces">["pieces"][number];
type Label = PieceToRegister["label"];

export interface LabelDraft {
  readonly maker: string;
  readonly modelName: string;
  readonly size: string;
  readonly pattern: string;
  readonly linerCode: string;
  readonly serial: string;
  readonly lot: string;
  readonly cutNumber: string;
  readonly madeOn: string;
  readonly materials: string;
}
export interface FileDraft {
  readonly ownerKind: Owner["kind"];
  readonly ownerId: string;
  readonly funding: string;
  readonly purchaseOrder: string;
  readonly price: string;
  readonly inServiceOn: string;
}
export interface RegisterDraft extends LabelDraft, FileDraft {
  readonly kind: string;
  readonly reading: LabelReading;
  readonly count: string;
  readonly note: string;
  /** An id of a place; or one of the two words for what is no place. */
  readonly where: string;
  readonly whereMember: string;
}
export type Problems<Draft> = Readonly<Partial<Record<keyof Draft, string>>>;

export const WITH_MEMBER = "with a member";
export const NOBODY_KNOWS = "whereabouts unknown";

export const LABEL_FIELDS = [
  ...(["maker", "modelName", "size", "pattern", "linerCode"] as const),
  ...(["serial", "lot", "cutNumber", "madeOn", "materials"] as const),
] as const;

export const EMPTY_LABEL: LabelDraft = {
  ...{ maker: "", modelName: "", size: "", pattern: "", linerCode: "" },
  ...{ serial: "", lot: "", cutNumber: "", madeOn: "", materials: "" },
};
export const EMPTY_FILE: FileDraft = {
  ...{ ownerKind: "department" as const, ownerId: "" },
  ...{ funding: "", purchaseOrder: "", price: "", inServiceOn: "" },
};
export const EMPTY_DRAFT: RegisterDraft = {
  ...EMPTY_LABEL,
  ...EMPTY_FILE,
  ...{ kind: "", reading: "read" as const, count: "1", note: "", where: "", whereMember: "" },
};

const words = FORM_WORDS;

/** Finds what is wrong in the fields of a label: too long, or a date that is none or has not come. */
export function labelProblems(draft: LabelDraft, today: string): Problems<LabelDraft> {
  const problems: Partial<Record<keyof LabelDraft, string>> = {};
  for (const field of LABEL_FIELDS) {
    if (!isOneLine(draft[field], WORDS_MAX)) problems[field] = words.oneLine(WORDS_MAX);
  }
  const madeOn = draft.madeOn.trim() === "" ? undefined : readMadeOn(draft.madeOn);
  if (draft.madeOn.trim() !== "" && madeOn === undefined) problems.madeOn = words.madeWrong;
  if (madeOn !== undefined && isAfter(madeOn, today)) problems.madeOn = words.madeAhead;
  return problems;
}

/** Finds what is wrong in the fields of a file: an owner not chosen, an amount or a day that is none. */
export function fileProblems(draft: FileDraft): Problems<FileDraft> {
  const problems: Partial<Record<keyof FileDraft, string>> = {};
  const hasId = draft.ownerKind === "member" || draft.ownerKind === "provider";
  if (hasId && draft.ownerId === "") problems.ownerId = words.chooseFirst;
  for (const field of ["funding", "purchaseOrder"] as const) {
    if (!isOneLine(draft[field], WORDS_MAX)) problems[field] = words.oneLine(WORDS_MAX);
  }
  if (draft.price.trim() !== "" && readCents(draft.price) === undefined) problems.price = words.priceWrong;
  if (draft.inServiceOn !== "" && !readDay(draft.inServiceOn)) problems.inServiceOn = words.dayWrong;
  return problems;
}

/** Finds everything that is wrong in the form at once; nothing is unknown that has to be known but kind and holder. */
export function registerProblems(draft: RegisterDraft, today: string): Problems<RegisterDraft> {
  const problems: Partial<Record<keyof RegisterDraft, string>> = {
    ...labelProblems(draft, today),
    ...fileProblems(draft),
  };
  if (draft.kind === "") problems.kind = words.kindNeeded;
  if (draft.where === "") problems.where = words.holderNeeded;
  if (draft.where === WITH_MEMBER && draft.whereMember === "") problems.whereMember = words.chooseFirst;
  if (draft.note.trim().length > NOTE_MAX) problems.note = words.noteTooLong;
  const isSilent = LABEL_FIELDS.every((field) => draft[field].trim() === "");
  if (draft.reading === "read" && isSilent) problems.reading = words.readingSaysNothing;
  const count = countOfDraft(draft);
  if (count === undefined) problems.count = words.countWrong;
  else if (count > 1 && draft.serial.trim() !== "") problems.count = words.countWithSerial;
  return problems;
}

/** Reads how many alike pieces the form stands for, 1 to 100. */
export function countOfDraft({ count }: RegisterDraft): number | undefined {
  const typed = count.trim();
  const read = /^\d{1,3}$/.test(typed) ? Number(typed) : 0;
  return read >= 1 && read <= 100 ? read : undefined;
}

/** Makes the label that the register takes: empty fields are left out, so that unknown stays unknown. */
export function labelOfDraft(draft: LabelDraft): Label {
  const label: Record<string, string> = {};
  for (const field of LABEL_FIELDS) {
    const typed = draft[field].trim();
    if (typed !== "") label[field] = field === "madeOn" ? (readMadeOn(typed) ?? typed) : typed;
  }
  return label;
}

/** Makes the owner that the register takes. */
export function ownerOfDraft({ ownerKind, ownerId }: FileDraft): PieceToRegister["file"]["owner"] {
  const hasId = ownerKind === "member" || ownerKind === "provider";
  return hasId ? { kind: ownerKind, id: ownerId } : { kind: ownerKind };
}

/** Makes one piece of a draft without problems. */
export function pieceOfDraft(draft: RegisterDraft, id: string): PieceToRegister {
  const [funding, purchaseOrder, note] = [
    draft.funding.trim(),
    draft.purchaseOrder.trim(),
    draft.note.trim(),
  ];
  const priceCents = readCents(draft.price);
  return {
    ...{ id, kind: draft.kind, label: labelOfDraft(draft), reading: draft.reading },
    file: {
      owner: ownerOfDraft(draft),
      ...(funding ? { funding } : {}),
      ...(purchaseOrder ? { purchaseOrder } : {}),
      ...(priceCents === undefined ? {} : { priceCents }),
      ...(draft.inServiceOn ? { inServiceOn: draft.inServiceOn } : {}),
    },
    holder: holderOfDraft(draft),
    ...(note ? { note } : {}),
  };
}

function holderOfDraft({ where, whereMember }: RegisterDraft): PieceToRegister["holder"] {
  if (where === NOBODY_KNOWS) return { kind: NOBODY_KNOWS };
  return where === WITH_MEMBER ? { kind: "member", id: whereMember } : { kind: "place", id: where };
}

/** Keeps the fields for the next piece of a run: all but the serial, which names one piece. */
export function sameAgain(draft: RegisterDraft): RegisterDraft {
  return { ...draft, serial: "", count: "1" };
}
