import { sql } from "kysely";
import type { MemberId, PlaceId } from "../domain/ids.ts";
import type { Tx } from "./db.ts";

/** Finds the members that have these numbers. */
export async function membersByNumber(
  tx: Tx,
  numbers: readonly string[],
): Promise<ReadonlyMap<string, MemberId>> {
  const found = await sql<{ number: string; id: MemberId }>`
    select number, id from member where number = any(${numbers}::text[])`.execute(tx);
  return new Map(found.rows.map(({ number, id }) => [number, id]));
}

/** Gives those of the places that are no open station on record. */
export async function unknownStations(tx: Tx, places: readonly PlaceId[]): Promise<PlaceId[]> {
  if (places.length === 0) return [];
  const found = await sql<{ id: PlaceId }>`
    select id from place where id = any(${places}::uuid[]) and what = 'station' and not closed`.execute(tx);
  const known = new Set(found.rows.map(({ id }) => id));
  return places.filter((place) => !known.has(place));
}

/** Writes or corrects the names of many people, beside the ledger. */
export async function namePeople(tx: Tx, names: ReadonlyMap<string, string>): Promise<void> {
  if (names.size === 0) return;
  await sql`insert into person (id, name)
    select * from unnest(${[...names.keys()]}::uuid[], ${[...names.values()]}::text[])
    on conflict (id) do update set name = excluded.name`.execute(tx);
}
