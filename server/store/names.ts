import { CompiledQuery } from "kysely";
import type { Holder } from "../domain/custody/holder.ts";
import type { Uuid } from "../domain/ids.ts";
import type { Named, Names } from "../domain/piece-view.ts";
import type { Db, Tx } from "./db.ts";

/** A name as a query gives it; `up` is the place that a place is within, or a member's station. */
export interface NameRow {
  readonly id: string;
  readonly kind: Named["kind"];
  readonly name: string | null;
  readonly detail: string | null;
  readonly up: string | null;
  readonly up_name: string | null;
}

/**
 * Asks who the ids of an array stand for: places, people, providers, outside parties, models. The names of people stand
 * apart from the ledger and may have been removed; then `name` is null. What a name is within is sought for each by
 * itself: a join of the whole may be planned as a walk through all names.
 */
export function namedIn(ids: string): string {
  return `select n.id, n.kind, coalesce(n.name, own.name, listed.name) as name, coalesce(n.detail, u.name) as detail,
    case when u.kind = 'place' then u.id end as up, case when u.kind = 'place' then u.name end as up_name
  from named n left join lateral (select * from named x where x.id = n.up limit 1) u on true
    left join person own on own.id = n.id left join person listed on listed.id = n.up and n.kind = 'account'
  where n.id = any(${ids})`;
}

const ASK_NAMES = `/* prepared: ask-names */ ${namedIn("$1::uuid[]")}
  union all
  select p.id, 'piece', k.name, (select t.number from tag t where t.piece = p.id
    order by t.state <> 'attached', t.position, t.number limit 1), null, null
  from piece p left join kind k on k.code = p.kind where p.id = any($1::uuid[])`;

/** Asks for the names of ids of any kind. */
export async function askNames(db: Db | Tx, ids: readonly string[]): Promise<readonly NameRow[]> {
  const wanted = [...new Set(ids)];
  if (wanted.length === 0) return [];
  const asked = CompiledQuery.raw(ASK_NAMES, [wanted]) as CompiledQuery<NameRow>;
  return (await db.executeQuery(asked)).rows;
}

/** Makes names of rows; somebody whose name was removed is told by number. */
export function namesFromRows(rows: readonly NameRow[]): Names {
  return Object.fromEntries(rows.map((row) => [row.id, namedFromRow(row)]));
}

function namedFromRow({ id, kind, name, detail }: NameRow): Named {
  const withoutName = kind === "member" && detail ? `Member ${detail}` : "name removed";
  return { kind, id: id as Uuid, name: name ?? withoutName, ...(detail ? { detail } : {}) };
}

/** Gives for each place the place that it is within, and for each member the station. */
export function upsFromRows(rows: readonly NameRow[]): ReadonlyMap<string, Named> {
  return new Map(
    rows.flatMap((row) =>
      row.up && row.up_name
        ? [[row.id, { kind: "place", id: row.up as Uuid, name: row.up_name }] as const]
        : [],
    ),
  );
}

/** Names a holder. A holder that the register no longer names is shown by its kind. */
export function nameHolder(holder: Holder, names: Names): Named {
  if (!("id" in holder)) return { kind: holder.kind, name: holder.kind };
  return names[holder.id] ?? { kind: holder.kind, id: holder.id, name: holder.kind };
}

/** Names an account, or says that nobody by that id is on record. */
export function nameAccount(id: string, names: Names): Named {
  return names[id] ?? { kind: "account", id: id as Uuid, name: "not on record" };
}
