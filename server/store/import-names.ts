import { sql } from "kysely";
import type { MemberId, ModelId, PieceId, PlaceId, ProviderId, Uuid } from "../domain/ids.ts";
import type { KnownMember } from "../domain/intake/plan-members.ts";
import type { KnownModel } from "../domain/intake/plan-models.ts";
import type { RegisterNames } from "../domain/intake/register-index.ts";
import type { ModelSource } from "../domain/register/model.ts";
import type { PlaceSort } from "../domain/register/place.ts";
import type { LocalDate } from "../domain/time.ts";
import type { Tx } from "./db.ts";
import { loadKinds } from "./load-rulebook.ts";

/** All that a file may name: open places, members also after they left, providers that are not closed, kinds, models. */
export interface KnownToImport extends RegisterNames {
  readonly members: readonly KnownMember[];
  readonly models: readonly KnownModel[];
}

/** Reads what the register holds that a file may name. A ceiling department has 20,000 members. */
export async function readKnownToImport(tx: Tx): Promise<KnownToImport> {
  const places = await tx
    .selectFrom("place")
    .select(["id", "name", "what"])
    .where("closed", "=", false)
    .execute();
  const providers = await tx
    .selectFrom("provider")
    .select(["id", "name"])
    .where("closed", "=", false)
    .execute();
  return {
    kinds: [...(await loadKinds(tx)).values()],
    places: places.map(({ id, name, what }) => ({ id: id as PlaceId, name, what: what as PlaceSort })),
    providers: providers.map(({ id, name }) => ({ id: id as ProviderId, name })),
    members: await readMembers(tx),
    models: await readModels(tx),
  };
}

async function readMembers(tx: Tx): Promise<KnownMember[]> {
  const rows = await tx
    .selectFrom("member")
    .leftJoin("person", "person.id", "member.id")
    .select(["member.id", "member.number", "member.station", "member.shift", "member.left_on", "person.name"])
    .execute();
  return rows.map(({ id, number, station, shift, left_on, name }) => ({
    ...{ id: id as MemberId, number, hasLeft: left_on !== null },
    ...(station === null ? {} : { station: station as PlaceId }),
    ...(shift === null ? {} : { shift }),
    ...(name === null ? {} : { name }),
  }));
}

async function readModels(tx: Tx): Promise<KnownModel[]> {
  const takes = await tx.selectFrom("model_takes").selectAll().orderBy("model").orderBy("n").execute();
  const takesOf = Map.groupBy(takes, ({ model }) => model);
  const rows = await tx.selectFrom("model").selectAll().execute();
  return rows.map((row) => ({
    ...{ id: row.id as ModelId, maker: row.maker, name: row.name, kind: row.kind, layers: row.layers },
    takes: (takesOf.get(row.id) ?? []).map(({ layer_kind, takes_model, takes_code }) => ({
      layerKind: layer_kind,
      ...(takes_model === null ? {} : { takesModel: takes_model as ModelId }),
      ...(takes_code === null ? {} : { takesLinerCode: takes_code }),
    })),
    ...(row.wash === null ? {} : { wash: row.wash as NonNullable<KnownModel["wash"]> }),
    source: {
      what: row.source as ModelSource,
      by: row.source_by as Uuid,
      ...(row.source_on === null ? {} : { on: row.source_on as LocalDate }),
    },
  }));
}

/** Finds the pieces that these foreign codes are bound to, whatever their case, keyed in lower case. */
export async function knownCodes(tx: Tx, codes: readonly string[]): Promise<ReadonlyMap<string, PieceId>> {
  if (codes.length === 0) return new Map();
  const folded = codes.map((code) => code.toLowerCase());
  const found = await sql<{ code: string; piece: PieceId }>`
    select lower(code) as code, piece from foreign_code where lower(code) = any(${folded}::text[])`.execute(
    tx,
  );
  return new Map(found.rows.map(({ code, piece }) => [code, piece]));
}
