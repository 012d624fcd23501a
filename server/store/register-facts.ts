import { sql } from "kysely";
import type { MemberId, ModelId, PieceId, Uuid } from "../domain/ids.ts";
import type { MakersLabel } from "../domain/pieces/label.ts";
import { serialOf } from "../domain/register/register-pieces.ts";
import type { Tx } from "./db.ts";

/** Finds which of these serials the register has, keyed as `serialOf`. */
export async function knownSerials(
  tx: Tx,
  pieces: readonly { readonly kind: string; readonly label: MakersLabel }[],
): Promise<ReadonlyMap<string, PieceId>> {
  const wanted = pieces.filter(({ kind, label }) => serialOf(kind, label) !== undefined);
  if (wanted.length === 0) return new Map();
  const found = await sql<{ id: PieceId; kind: string; maker: string; serial: string }>`
    select p.id, p.kind, p.maker, p.serial from unnest(
      ${wanted.map(({ label }) => label.maker?.toLowerCase())}::text[], ${wanted.map(({ kind }) => kind)}::text[],
      ${wanted.map(({ label }) => label.serial?.toLowerCase())}::text[]) as w(maker, kind, serial)
    join piece p on lower(p.maker) = w.maker and p.kind = w.kind and lower(p.serial) = w.serial
      and p.serial is not null and p.maker is not null`.execute(tx);
  return new Map(
    found.rows.map(({ id, kind, maker, serial }) => [serialOf(kind, { maker, serial }) ?? "", id]),
  );
}

/** Finds the model of each maker, model name and kind, where the model table has it. */
export async function modelsByName(
  tx: Tx,
  pieces: readonly { readonly kind: string; readonly label: MakersLabel }[],
): Promise<(kind: string, label: MakersLabel) => ModelId | undefined> {
  const named = pieces.filter(({ label }) => label.maker && label.modelName);
  const key = (kind: string, maker = "", name = "") =>
    `${kind}\u0000${maker.toLowerCase()}\u0000${name.toLowerCase()}`;
  const ids = new Map<string, ModelId>();
  if (named.length > 0) {
    const makers = [...new Set(named.map(({ label }) => label.maker?.toLowerCase()))];
    const found = await sql<{ id: ModelId; kind: string; maker: string; name: string }>`
      select id, kind, maker, name from model where lower(maker) = any(${makers}::text[])`.execute(tx);
    for (const row of found.rows) ids.set(key(row.kind, row.maker, row.name), row.id);
  }
  return (kind, label) => ids.get(key(kind, label.maker, label.modelName));
}

/** Finds the subject that holds a name or number already: a place's name, a member's number, a model's three names. */
export async function holderOfName(
  tx: Tx,
  what: "place" | "member" | "kind" | "provider" | "outside",
  name: string,
): Promise<Uuid | undefined> {
  const query = {
    place: sql<{ id: Uuid }>`select id from place where lower(name) = lower(${name}) and not closed`,
    member: sql<{ id: Uuid }>`select id from member where number = ${name}`,
    provider: sql<{ id: Uuid }>`select id from provider where lower(name) = lower(${name}) and not closed`,
    outside: sql<{ id: Uuid }>`select id from outside where lower(name) = lower(${name}) and not closed`,
    kind: sql<{ id: Uuid }>`select id from kind where code = ${name}`,
  }[what];
  return (await query.execute(tx)).rows[0]?.id;
}

/** Counts the pieces that somebody holds now, retired ones left out. */
export async function countHeld(tx: Tx, holder: Uuid): Promise<number> {
  const { pieces } = await tx
    .selectFrom("piece")
    .select((eb) => eb.fn.countAll<string>().as("pieces"))
    .where("holder", "=", holder)
    .where("retired_at", "is", null)
    .executeTakeFirstOrThrow();
  return Number(pieces);
}

/** Finds the piece that a foreign code is bound to. */
export async function pieceOfCode(tx: Tx, code: string): Promise<PieceId | undefined> {
  const row = await tx.selectFrom("foreign_code").select("piece").where("code", "=", code).executeTakeFirst();
  return row?.piece as PieceId | undefined;
}

/** Writes or corrects a person's name, beside the ledger: a member's, or an account's. */
export async function namePerson(tx: Tx, id: MemberId | Uuid, name: string): Promise<void> {
  await tx
    .insertInto("person")
    .values({ id, name })
    .onConflict((conflict) => conflict.column("id").doUpdateSet({ name }))
    .execute();
}
