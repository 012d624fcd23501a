import { sql } from "kysely";
import type { Uuid } from "../domain/ids.ts";
import type { ActionCard } from "../domain/register/policy.ts";
import type { TagNumber } from "../domain/tags/tag-number.ts";
import type { Db } from "./db.ts";

/** Something with a card: its number, and the name that a place's card says. */
export interface CardHolder {
  readonly id: Uuid;
  readonly name: string;
  readonly number?: TagNumber;
}

type Row = { id: Uuid; name: string; number: TagNumber | null };

function holders(rows: readonly Row[]): CardHolder[] {
  return rows.map(({ id, name, number }) => ({ id, name, ...(number ? { number } : {}) }));
}

/** Reads the cards of places by their names. */
export async function placeCards(db: Db, ids: readonly Uuid[]): Promise<CardHolder[]> {
  const found = await sql<Row>`
    select id, name, number from place where id = any(${ids}::uuid[]) order by name`.execute(db);
  return holders(found.rows);
}

/** Reads the cards of members in the order of their numbers. The card itself carries no name. */
export async function memberCards(db: Db, ids: readonly Uuid[]): Promise<CardHolder[]> {
  const found = await sql<Row>`
    select id, 'member ' || number as name, card as number from member where id = any(${ids}::uuid[])
    order by length(number), number`.execute(db);
  return holders(found.rows);
}

/** Reads the badges of open accounts by the names of their people. */
export async function badges(db: Db, ids: readonly Uuid[]): Promise<CardHolder[]> {
  const found = await sql<Row>`
    select a.id, coalesce(own.name, listed.name, a.role) as name, a.badge as number
    from account a left join person own on own.id = a.id left join person listed on listed.id = a.member
    where a.id = any(${ids}::uuid[]) and not a.closed order by 2`.execute(db);
  return holders(found.rows);
}

/** Reads which numbers stand for the actions of the bench. */
export async function actionCards(db: Db): Promise<Readonly<Partial<Record<ActionCard, TagNumber>>>> {
  const row = await db
    .selectFrom("setting")
    .select("value")
    .where("name", "=", "action cards")
    .executeTakeFirst();
  return (row?.value ?? {}) as Readonly<Partial<Record<ActionCard, TagNumber>>>;
}
