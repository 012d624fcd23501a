import { sql } from "kysely";
import type { Uuid } from "../domain/ids.ts";
import { formatTagNumber, type TagNumber } from "../domain/tags/tag-number.ts";
import type { Db } from "./db.ts";

export type NamedKind =
  | "piece"
  | "tag"
  | "place"
  | "member"
  | "provider"
  | "outside"
  | "model"
  | "kind"
  | "account"
  | "contamination-event"
  | "machine"
  | "trace";

/** What an id names, as a person reads it. `number` is the tag that a piece carries, where it carries one. */
export interface SubjectName {
  readonly id: Uuid;
  readonly kind: NamedKind;
  readonly name: string;
}

interface NameRow {
  readonly id: Uuid;
  readonly kind: NamedKind;
  readonly name: string | null;
  readonly number: TagNumber | null;
}

/**
 * Names ids of any kind in one query: a piece by its kind and tag ("coat liner HJ9V 2939 03KX"), people by their names,
 * or by number where the name was removed. Ids that nothing is known of are left out.
 */
export async function nameSubjects(db: Db, ids: readonly string[]): Promise<ReadonlyMap<Uuid, SubjectName>> {
  const wanted = [...new Set(ids)];
  if (wanted.length === 0) return new Map();
  const found = await sql<NameRow>`
    with wanted as (select unnest(${wanted}::uuid[]) as id)
    select p.id, 'piece' as kind, k.name, (select t.number from tag t where t.piece = p.id and t.state = 'attached'
        order by t.position, t.number limit 1) as number
      from piece p join wanted using (id) left join kind k on k.code = p.kind
    union all select id, 'tag', 'tag', number from tag join wanted using (id)
    union all select id, 'place', name, null from place join wanted using (id)
    union all select m.id, 'member', coalesce(n.name, 'member ' || m.number), null
      from member m join wanted using (id) left join person n on n.id = m.id
    union all select id, 'provider', name, null from provider join wanted using (id)
    union all select id, 'outside', name, null from outside join wanted using (id)
    union all select id, 'model', maker || ' ' || name, null from model join wanted using (id)
    union all select id, 'machine', name, null from machine join wanted using (id)
    union all select id, 'kind', name, null from kind join wanted using (id)
    union all select id, 'trace', name, null from trace join wanted using (id)
    union all select id, 'contamination-event', name, null from contamination_event join wanted using (id)
    union all select a.id, 'account', coalesce(own.name, listed.name, a.role), null
      from account a join wanted using (id) left join person own on own.id = a.id
        left join person listed on listed.id = a.member`.execute(db);
  return new Map(found.rows.map((row) => [row.id, { id: row.id, kind: row.kind, name: wordsOf(row) }]));
}

function wordsOf({ kind, name, number }: NameRow): string {
  const word = kind === "piece" ? midSentence(name ?? "piece") : (name ?? kind);
  return number ? `${word} ${formatTagNumber(number)}` : word;
}

/** A kind's name as it stands inside a sentence: "Coat liner" begins small there, "DRD" does not. */
function midSentence(name: string): string {
  return /^.\p{Lu}/u.test(name) ? name : name.charAt(0).toLowerCase() + name.slice(1);
}
