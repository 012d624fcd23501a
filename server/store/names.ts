import type { Holder } from "../domain/custody/holder.ts";
import type { Uuid } from "../domain/ids.ts";
import type { Named, Names } from "../domain/piece-view.ts";

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
 * Names what the ids of `ids(id)` stand for, as rows that a query joins: give it where a list of ids is in scope.
 * The names of people stand apart from the ledger and may have been removed; then `name` is null.
 */
export const NAMES_OF_IDS = `
  select ids.id, n.kind, n.name, n.detail, n.up, n.up_name
  from ids cross join lateral (
    select 'place' as kind, p.name, w.name as detail, w.id as up, w.name as up_name
    from place p left join place w on w.id = p.within where p.id = ids.id
    union all
    select 'member', q.name, m.number, s.id, s.name
    from member m left join person q on q.id = m.id left join place s on s.id = m.station where m.id = ids.id
    union all
    select 'provider', v.name, null, null, null from provider v where v.id = ids.id
    union all
    select 'outside', o.name, o.what, null, null from outside o where o.id = ids.id
    union all
    select 'account', coalesce(q.name, r.name), a.role, null, null
    from account a left join person q on q.id = a.id left join person r on r.id = a.member where a.id = ids.id
    union all
    select 'piece', k.name, (select t.number from tag t where t.piece = p.id
      order by t.state <> 'attached', t.position, t.number limit 1), null, null
    from piece p join kind k on k.code = p.kind where p.id = ids.id
    union all
    select 'model', m.name, m.maker, null, null from model m where m.id = ids.id
  ) n where ids.id is not null`;

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
