import type { ModelFacts, ModelSource } from "../register/model.ts";
import type { LocalDate } from "../time.ts";
import type { ModelField } from "./columns.ts";
import type { ColumnMapping } from "./map-columns.ts";
import type { FileRow, ParkedRow, Problem, ReadRow, ReadTable } from "./problem.ts";
import { cellsBeyond, isBlank } from "./read-piece-table.ts";
import { modelKey, type RegisterIndex } from "./register-index.ts";
import { placeProblems, type RowReader, rowReader } from "./row-reader.ts";

/** What one row says that a model takes. A model is named, since the file may bring it in itself. */
export interface TakesDraft {
  readonly layerKind: string;
  readonly takesModel?: { readonly maker: string; readonly name: string };
  readonly takesLinerCode?: string;
}

/** A model as all rows of a file together describe it. Who says so is the account that brings the file in. */
export interface ModelDraft {
  readonly maker: string;
  readonly name: string;
  readonly kind: string;
  /** Kinds that a complete garment needs; absent when no row says. */
  readonly layers?: readonly string[];
  readonly takes: readonly TakesDraft[];
  readonly wash?: NonNullable<ModelFacts["wash"]>;
  readonly source: { readonly what: ModelSource; readonly on?: LocalDate };
}

const WASHES: Readonly<Record<string, NonNullable<ModelFacts["wash"]>>> = {
  machine: "machine",
  "machine, in a mesh bag": "machine, in a mesh bag",
  "mesh bag": "machine, in a mesh bag",
  "by hand": "by hand",
  hand: "by hand",
  "not at all": "not at all",
  none: "not at all",
};
const SOURCES: Readonly<Record<string, ModelSource>> = {
  "maker's letter": "maker's letter",
  "makers letter": "maker's letter",
  letter: "maker's letter",
  "worn-together label": "worn-together label",
  "worn together label": "worn-together label",
  label: "worn-together label",
  imported: "imported",
};

interface ModelRow {
  readonly draft: Omit<ModelDraft, "takes">;
  readonly takes?: TakesDraft;
}

/**
 * Reads the model table from a file: one row a layer that a model takes, rows of one model together one draft, at the
 * model's first row. A model whose rows disagree, or of which one row has a problem, is parked with all its rows, so
 * that half of what a shell takes never stands in the register. A taken model must be in the register or the file.
 */
export function readModelTable(
  rows: readonly FileRow[],
  columnCount: number,
  mapping: ColumnMapping<ModelField>,
  register: RegisterIndex,
  today: LocalDate,
): ReadTable<ModelDraft, ModelField> {
  const read = rows
    .filter((row) => !isBlank(row))
    .map((row): Judged => {
      const { reader, model, named } = readModelRow(row, mapping, register, today);
      return { row, model, named, problems: [...reader.problems, ...cellsBeyond(row, columnCount)] };
    });
  const groups = withoutUnknownTakes(grouped(read).map(withDisagreements), register);
  const accepted: ReadRow<ModelDraft>[] = [];
  const parked: ParkedRow<ModelField>[] = [];
  for (const group of groups) {
    const draft = joined(group);
    const faulty = group.filter(({ problems }) => problems.length > 0).map(({ row }) => row.row);
    if (draft && group[0]) accepted.push({ ...group[0].row, draft });
    for (const { row, problems } of draft ? [] : group) {
      const whole = problems.length > 0 ? problems : [{ code: "with-parked-row", rows: faulty } as const];
      parked.push({ ...row, problems: placeProblems(row.row, whole, mapping) });
    }
  }
  return { accepted, parked: parked.sort((a, b) => a.row - b.row) };
}

interface Judged {
  readonly row: FileRow;
  readonly model: ModelRow | undefined;
  /** Maker and model name, by which a row whose kind cannot be read still belongs to a model. */
  readonly named: string;
  readonly problems: readonly Problem<ModelField>[];
}

/** Rows of one model: by maker, name and kind; where a kind cannot be read, all rows of that maker and name together. */
function grouped(read: readonly Judged[]): readonly (readonly Judged[])[] {
  const unread = new Set(read.filter(({ model }) => !model).map(({ named }) => named));
  const groups = new Map<string, Judged[]>();
  for (const each of read) {
    const { model, named } = each;
    const isApart = model && !unread.has(named);
    const key = isApart ? modelKey(model.draft.maker, model.draft.name, model.draft.kind) : named;
    groups.set(key, [...(groups.get(key) ?? []), each]);
  }
  return [...groups.values()];
}

function readModelRow(
  row: FileRow,
  mapping: ColumnMapping<ModelField>,
  register: RegisterIndex,
  today: LocalDate,
) {
  const reader = rowReader(row.cells, mapping);
  const [maker, name] = [reader.required("maker"), reader.required("name")];
  reader.required("kind");
  const kind = readKind(reader, "kind", register);
  const layers = readLayers(reader, register);
  const wash = reader.choice("wash", WASHES);
  const what = reader.choice("source", SOURCES) ?? "imported";
  const on = reader.day("sourceOn", today);
  const takes = readTakes(reader, register, maker);
  const isWhole = maker !== undefined && name !== undefined && kind !== undefined;
  const draft = isWhole && {
    maker,
    name,
    kind,
    ...(layers ? { layers } : {}),
    ...(wash ? { wash } : {}),
    source: { what, ...(on ? { on } : {}) },
  };
  const model: ModelRow | undefined = draft ? { draft, ...(takes ? { takes } : {}) } : undefined;
  return { reader, model, named: modelKey(maker ?? "", name ?? "", "") };
}

function readKind(
  reader: RowReader<ModelField>,
  field: "kind" | "takesKind" | "layers",
  register: RegisterIndex,
  text = reader.text(field),
): string | undefined {
  if (text === undefined) return undefined;
  const answer = register.kind(text);
  if ("kind" in answer) return answer.kind;
  if (answer.mayBe.length === 0) reader.add({ code: "kind-unknown", field, value: text });
  else reader.add({ code: "kind-unclear", field, value: text, mayBe: answer.mayBe });
  return undefined;
}

/** Layers stand in one cell, parted by + (or a comma); "none" says that the garment is of one layer. */
function readLayers(reader: RowReader<ModelField>, register: RegisterIndex): readonly string[] | undefined {
  const text = reader.text("layers");
  if (text === undefined) return undefined;
  if (text.toLowerCase() === "none") return [];
  const names = text.split(/[+,;]/).map((name) => name.trim());
  return names
    .filter((name) => name !== "")
    .flatMap((name) => readKind(reader, "layers", register, name) ?? []);
}

function readTakes(
  reader: RowReader<ModelField>,
  register: RegisterIndex,
  maker: string | undefined,
): TakesDraft | undefined {
  const layerKind = readKind(reader, "takesKind", register);
  const [name, takesLinerCode] = [reader.text("takesModel"), reader.text("takesCode")];
  const takesMaker = reader.text("takesMaker") ?? maker;
  const hasKind = reader.text("takesKind") !== undefined;
  if (hasKind !== (name !== undefined || takesLinerCode !== undefined)) {
    reader.add({ code: "takes-incomplete", field: hasKind ? "takesCode" : "takesKind" });
  }
  if (layerKind === undefined) return undefined;
  return {
    layerKind,
    ...(name !== undefined && takesMaker !== undefined ? { takesModel: { maker: takesMaker, name } } : {}),
    ...(takesLinerCode === undefined ? {} : { takesLinerCode }),
  };
}

/** Adds to each row what it says otherwise than the first row of its model. */
function withDisagreements(group: readonly Judged[]): readonly Judged[] {
  const first = group[0];
  return group.map((each) => {
    if (!each.model || !first?.model) return each;
    const [here, there] = [sharedFacts(each.model), sharedFacts(first.model)];
    const problems = (["layers", "wash", "source", "sourceOn"] as const).flatMap(
      (field): Problem<ModelField>[] => {
        const [value = "", other = ""] = [here[field], there[field]];
        return value === other ? [] : [{ code: "rows-disagree", field, value, row: first.row.row, other }];
      },
    );
    return { ...each, problems: [...each.problems, ...problems] };
  });
}

function sharedFacts({ draft: { layers, wash, source } }: ModelRow) {
  return { layers: layers?.join(" + "), wash, source: source.what, sourceOn: source.on };
}

/** Parks models that take a model which neither the register nor an accepted model of the file is, until none is left. */
function withoutUnknownTakes(
  groups: readonly (readonly Judged[])[],
  register: RegisterIndex,
): readonly (readonly Judged[])[] {
  const drafts = groups.map(joined).filter((draft) => draft !== undefined);
  const inFile = new Set(drafts.map(({ maker, name, kind }) => modelKey(maker, name, kind)));
  let isSame = true;
  const next = groups.map((group) => {
    if (!joined(group)) return group;
    return group.map((each) => {
      const problems = unknownTakes(each.model?.takes, inFile, register);
      if (problems.length > 0) isSame = false;
      return { ...each, problems: [...each.problems, ...problems] };
    });
  });
  return isSame ? groups : withoutUnknownTakes(next, register);
}

function unknownTakes(
  takes: TakesDraft | undefined,
  inFile: ReadonlySet<string>,
  register: RegisterIndex,
): readonly Problem<ModelField>[] {
  if (!takes?.takesModel) return [];
  const { maker, name } = takes.takesModel;
  const isKnown = typeof register.model(maker, name, takes.layerKind) === "object";
  if (isKnown || inFile.has(modelKey(maker, name, takes.layerKind))) return [];
  return [{ code: "not-in-register", field: "takesModel", value: name, what: "model" }];
}

/** Joins the rows of a model; undefined as soon as one of them has a problem. */
function joined(group: readonly Judged[]): ModelDraft | undefined {
  const first = group[0]?.model;
  if (!first || group.some(({ problems }) => problems.length > 0)) return undefined;
  return { ...first.draft, takes: group.flatMap(({ model }) => model?.takes ?? []) };
}
