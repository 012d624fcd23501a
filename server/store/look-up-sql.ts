import { garmentFacts } from "./garment-facts.ts";
import { namedIn } from "./names.ts";

/** Words about this shell, or about this piece as a layer of one on the bench, whose own look-up brings the rest. */
const FACTS = garmentFacts("w.scope ->> 'shell' = hit.root::text or w.scope ->> 'layer' = hit.piece::text");

/** Ids of the rows, and the last holders, since the last acts are mostly moves. */
const MENTIONED = `array(
  select unnest(array[holder, member, owner]) from garment
  union all select by from told union all select by from seen
  union all (select s.holder from stay s where s.piece = hit.piece order by s.n desc limit 6))`;

/** What the scanned text may be, each as its own question: a plan for all three at once costs a fifth more. */
const HITS = {
  number: `select n.names, n.subject, p.id as piece, coalesce(p.fitted_in, p.id) as root
    from numbered n left join tag t on t.id = n.subject and n.names = 'tag' left join piece p on p.id = t.piece
    where n.number = $1::text`,
  code: `select 'foreign' as names, p.id as subject, p.id as piece, coalesce(p.fitted_in, p.id) as root
    from foreign_code f join piece p on p.id = f.piece where f.code = $1::text`,
  piece: `select 'piece' as names, p.id as subject, p.id as piece, coalesce(p.fitted_in, p.id) as root
    from piece p where p.id = $1::uuid`,
};
export type SoughtBy = keyof typeof HITS;

/**
 * One question that finds what a number, a foreign code or an id names and gathers all that the bench shows of the
 * piece: one round trip, because the bench waits for it. The text is constant, so that each connection plans it once
 * (planning it anew costs more than running it). What the names do not cover is asked for after, where there is any:
 * what else the last acts speak of, and holds. Bodies of entries come as text, for the one reader of entry bytes.
 */
export function lookUpSql(by: SoughtBy): string {
  return LOOK_UPS[by];
}

const LOOK_UPS: Readonly<Record<SoughtBy, string>> = {
  number: textFor("number"),
  code: textFor("code"),
  piece: textFor("piece"),
};

function textFor(by: SoughtBy): string {
  return `/* prepared: look-up-by-${by} */
with hit as materialized (
  ${HITS[by]}
), garment as materialized (
  select p.*, null as layer_kind, null::timestamptz as fitted_at, null as fitted_how
  from hit join piece p on p.id = hit.root
  union all
  select p.*, f.layer_kind, f.from_at, f.evidence
  from hit join fitting f on f.shell = hit.root and f.to_at is null join piece p on p.id = f.layer
), told as materialized (
  select e.subject, e.subject_kind, e.version, e.act, convert_from(e.bytes, 'UTF8') as body,
    e.n, a.position, a.command, a.at, a.recorded_at, a.by
  from (select piece as id, 5 as most from hit union all select t.id, 1 from hit join tag t on t.piece = hit.piece) s
  cross join lateral (select * from entry x where x.subject = s.id order by x.version desc limit s.most) e
  join act a on a.id = e.act
), seen as materialized (
  select s.at, s.by, s.device from hit join scan s on s.subject = hit.piece order by s.at desc limit 1
)
select hit.names as names_what, hit.subject, hit.piece, hit.root, ${FACTS},
  (select json_agg(f.code) from foreign_code f where f.piece = hit.piece) as codes,
  (select json_agg(t) from told t) as told,
  (select row_to_json(s) from seen s) as seen,
  (select json_agg(x) from (${namedIn(MENTIONED)}) x) as names
from hit`;
}
