import type { Rulebook } from "../domain/bench/rulebook.ts";
import type { ModelId, PieceId, Uuid } from "../domain/ids.ts";
import type { AcceptedCombination } from "../domain/label-check/accepted-combination.ts";
import type { ModelTakes } from "../domain/pieces/label.ts";
import type { KindFacts } from "../domain/register/kind.ts";
import { type Settings, STARTING_SETTINGS } from "../domain/register/policy.ts";
import type { LocalDate } from "../domain/time.ts";
import type { Tx } from "./db.ts";

/** Reads the rules as they stand: never kept between acts, so that two servers never answer by different ones. */
export async function loadRulebook(tx: Tx, models: readonly ModelId[]): Promise<Rulebook> {
  const settings = await loadSettings(tx);
  return {
    kinds: await loadKinds(tx),
    ...(await loadModels(tx, [...new Set(models)])),
    words: await loadWords(tx),
    settings,
    dayOf: (at) => dayIn(settings["time zone"], at),
  };
}

/** Reads all kinds by their code. */
export async function loadKinds(tx: Tx): Promise<ReadonlyMap<string, KindFacts>> {
  const rows = await tx.selectFrom("kind").selectAll().execute();
  return new Map(
    rows.map((row) => [
      row.code,
      {
        code: row.code,
        name: row.name,
        family: row.family,
        ...(row.garment ? { garment: row.garment } : {}),
        ...(row.layer ? { layer: row.layer } : {}),
        counted: row.counted,
        positions: row.positions,
      },
    ]),
  );
}

/** Reads the department's settings, with the starting value where none was set. */
export async function loadSettings(tx: Tx): Promise<Settings> {
  const rows = await tx.selectFrom("setting").select(["name", "value"]).execute();
  return { ...STARTING_SETTINGS, ...Object.fromEntries(rows.map((row) => [row.name, row.value])) };
}

async function loadModels(
  tx: Tx,
  models: readonly ModelId[],
): Promise<Pick<Rulebook, "modelTable" | "layersOfModel">> {
  if (models.length === 0) return { modelTable: [], layersOfModel: new Map() };
  const [facts, takes] = await Promise.all([
    tx.selectFrom("model").select(["id", "layers"]).where("id", "in", models).execute(),
    tx
      .selectFrom("model_takes as takes")
      .leftJoin("model as taken", "taken.id", "takes.takes_model")
      .select(["takes.model", "layer_kind", "takes_model", "takes_code", "taken.name as taken_name"])
      .where("takes.model", "in", models)
      .orderBy("takes.model")
      .orderBy("takes.n")
      .execute(),
  ]);
  return {
    layersOfModel: new Map(facts.map((row) => [row.id as ModelId, row.layers])),
    modelTable: takes.map(
      (row): ModelTakes => ({
        shellModel: row.model as ModelId,
        layerKind: row.layer_kind,
        ...(row.takes_model ? { takesModel: row.takes_model as ModelId } : {}),
        ...(row.taken_name ? { takesModelName: row.taken_name } : {}),
        ...(row.takes_code ? { takesLinerCode: row.takes_code } : {}),
      }),
    ),
  };
}

async function loadWords(tx: Tx): Promise<AcceptedCombination[]> {
  const rows = await tx.selectFrom("acceptance").selectAll().where("withdrawn", "=", false).execute();
  return rows.map((row) => ({
    id: row.id as Uuid,
    saidBy: row.said_by,
    saidByName: row.said_by_name,
    saidOn: row.said_on as LocalDate,
    document: row.document,
    scope: row.scope as AcceptedCombination["scope"],
  }));
}

/** Lists the layers fitted in shells at a moment, and the shells in which pieces are fitted then. */
export async function fittedWith(tx: Tx, pieces: readonly PieceId[], at: number): Promise<PieceId[]> {
  if (pieces.length === 0) return [];
  const rows = await tx
    .selectFrom("fitting")
    .select(["layer", "shell"])
    .where((eb) => eb.or([eb("shell", "in", pieces), eb("layer", "in", pieces)]))
    .where("from_at", "<=", new Date(at))
    .where((eb) => eb.or([eb("to_at", "is", null), eb("to_at", ">", new Date(at))]))
    .execute();
  return rows.flatMap((row) => [row.layer as PieceId, row.shell as PieceId]);
}

/** Gives the calendar day of an instant in a time zone, such as `America/Chicago`. */
export function dayIn(timeZone: string, at: number): LocalDate {
  const parts = new Intl.DateTimeFormat("en-CA", { timeZone, dateStyle: "short" });
  return parts.format(new Date(at)) as LocalDate;
}
