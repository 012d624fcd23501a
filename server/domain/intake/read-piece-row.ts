import type { MemberId, ModelId, PlaceId } from "../ids.ts";
import type { LabelReading, MakersLabel } from "../pieces/label.ts";
import type { Owner, PieceFile } from "../pieces/piece-entries.ts";
import type { LocalDate } from "../time.ts";
import type { PieceField } from "./columns.ts";
import type { ColumnMapping } from "./map-columns.ts";
import type { Problem } from "./problem.ts";
import { readMoney } from "./read-money.ts";
import type { RegisterIndex } from "./register-index.ts";
import { type RowReader, rowReader } from "./row-reader.ts";

/** A piece as a row describes it, ready to be registered. What the row does not say is absent: unknown stays unknown. */
export interface PieceDraft {
  readonly kind: string;
  readonly model?: ModelId;
  readonly label: MakersLabel;
  readonly reading: LabelReading;
  readonly file: PieceFile;
  readonly place?: PlaceId;
  /** The member to whom the piece belongs by the file; it is also the holder where no place is named. */
  readonly member?: MemberId;
  readonly set?: string;
  readonly foreignCode?: string;
  readonly note?: string;
}

export type PieceRowReading =
  | { readonly draft: PieceDraft }
  | { readonly problems: readonly Problem<PieceField>[] };

const READINGS: Readonly<Record<string, LabelReading>> = {
  read: "read",
  yes: "read",
  y: "read",
  "not yet read": "not yet read",
  "not read": "not yet read",
  unread: "not yet read",
  no: "not yet read",
  n: "not yet read",
  "not legible": "not legible",
  illegible: "not legible",
};

/**
 * Reads one row of a file into a piece ready to be registered, or returns all that is wrong with it.
 * Only the kind is required. Names of places, members and providers must stand in the register; a model that does not
 * stays a name on the label. `today` is the department's calendar day: nothing is made or in service after it.
 */
export function readPieceRow(
  cells: readonly string[],
  mapping: ColumnMapping<PieceField>,
  register: RegisterIndex,
  today: LocalDate,
): PieceRowReading {
  const row = rowReader(cells, mapping);
  const kind = readKind(row, register);
  const label = readLabel(row, today);
  const file = readFile(row, register, today);
  const place = row.listed("place", "place", register.place);
  const member = row.listed("member", "member", register.member);
  const set = row.text("set");
  const setHasMember = set === undefined || row.text("member") !== undefined;
  if (!setHasMember) row.add({ code: "set-without-member", field: "set", value: set });
  checkInService(row, label, file);
  const reading = row.choice("labelReading", READINGS) ?? "not yet read";
  const rest = present({ place, member, set, foreignCode: row.text("foreignCode"), note: row.note("note") });
  if (row.problems.length > 0 || kind === undefined) return { problems: row.problems };
  const model = label.maker && label.modelName ? register.model(label.maker, label.modelName, kind) : "none";
  return { draft: { kind, ...present({ model: idOf(model) }), label, reading, file, ...rest } };
}

function readKind(row: RowReader<PieceField>, register: RegisterIndex): string | undefined {
  const value = row.required("kind");
  if (value === undefined) return undefined;
  const answer = register.kind(value);
  if ("kind" in answer) return answer.kind;
  if (answer.mayBe.length === 0) row.add({ code: "kind-unknown", field: "kind", value });
  else row.add({ code: "kind-unclear", field: "kind", value, mayBe: answer.mayBe });
  return undefined;
}

function readLabel(row: RowReader<PieceField>, today: LocalDate): MakersLabel {
  return present({
    maker: row.text("maker"),
    modelName: row.text("modelName"),
    size: row.text("size"),
    pattern: row.text("pattern"),
    linerCode: row.text("linerCode"),
    serial: row.text("serial"),
    lot: row.text("lot"),
    cutNumber: row.text("cutNumber"),
    madeOn: row.dayOrMonth("madeOn", today),
    materials: row.text("materials"),
  });
}

function readFile(row: RowReader<PieceField>, register: RegisterIndex, today: LocalDate): PieceFile {
  return {
    owner: readOwner(row, register),
    ...present({
      funding: row.text("funding"),
      purchaseOrder: row.text("purchaseOrder"),
      priceCents: readPrice(row),
      inServiceOn: row.day("inServiceOn", today),
    }),
  };
}

const OWNERS: Readonly<Record<string, Owner["kind"]>> = {
  department: "department",
  dept: "department",
  "fire department": "department",
  ours: "department",
  "other department": "other department",
  loan: "other department",
  maker: "maker",
  manufacturer: "maker",
};

/** A blank owner is the department: that is whose register this is. */
function readOwner(row: RowReader<PieceField>, register: RegisterIndex): Owner {
  const ours: Owner = { kind: "department" };
  const value = row.text("owner");
  if (value === undefined) return ours;
  const kind = OWNERS[value.toLowerCase()];
  if (kind !== undefined && Object.hasOwn(OWNERS, value.toLowerCase())) return { kind };
  const named = /^(member|provider)[\s:]+(.+)$/i.exec(value);
  const what = named?.[1]?.toLowerCase();
  const name = named?.[2] ?? "";
  if (what === "member" || what === "provider") {
    const found = what === "member" ? register.member(name) : register.provider(name);
    if (typeof found === "object") return { kind: what, id: found.id };
    row.add({
      code: found === "none" ? "not-in-register" : "named-twice",
      field: "owner",
      value: name,
      what,
    });
    return ours;
  }
  const choices = ["department", "member NUMBER", "provider NAME", "other department", "maker"];
  row.add({ code: "not-a-choice", field: "owner", value, choices });
  return ours;
}

function readPrice(row: RowReader<PieceField>): number | undefined {
  const value = row.text("price");
  if (value === undefined) return undefined;
  const reading = readMoney(value);
  if ("cents" in reading) return reading.cents;
  row.add({ code: "money-unreadable", field: "price", value, why: reading.doubt });
  return undefined;
}

/** A month-only manufacture date is compared by its month: a piece may go into service in the month that made it. */
function checkInService(row: RowReader<PieceField>, label: MakersLabel, { inServiceOn }: PieceFile): void {
  const { madeOn } = label;
  if (!madeOn || !inServiceOn || inServiceOn.slice(0, madeOn.length) >= madeOn) return;
  row.add({ code: "in-service-before-made", field: "inServiceOn", value: inServiceOn, made: madeOn });
}

function idOf<Id>(found: { readonly id: Id } | string): Id | undefined {
  return typeof found === "object" ? found.id : undefined;
}

type Present<Facts> = { [Each in keyof Facts]?: Exclude<Facts[Each], undefined> };

/** Leaves out what is undefined, so that absent and unknown are the same. */
function present<Facts extends object>(facts: Facts): Present<Facts> {
  const kept: Partial<Facts> = {};
  for (const field in facts) if (facts[field] !== undefined) kept[field] = facts[field];
  return kept as Present<Facts>;
}
