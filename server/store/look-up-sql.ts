import { GARMENT_FACTS } from "./garment-facts.ts";
import { NAMES_OF_KNOWN } from "./names.ts";

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
 * (planning it anew costs more than running it). Most of what is left is the start of the plan's nodes, so what hangs
 * on a piece is asked for with the piece, and ids are named at the end: those of the rows, and the last holders, since
 * the last acts are mostly moves. What else an act names is asked for after, where there is any.
 * Bodies of entries come as text: they are read by the one reader of entry bytes.
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
), held as materialized (
  select h.* from garment g join hold h on h.piece = g.id and h.lifted_at is null where g.held
), told as materialized (
  select e.subject, e.subject_kind, e.version, e.act, convert_from(e.bytes, 'UTF8') as body,
    e.n, a.position, a.command, a.at, a.recorded_at, a.by
  from (select piece as id, 6 as most from hit union all select t.id, 3 from hit join tag t on t.piece = hit.piece) s
  cross join lateral (select * from entry x where x.subject = s.id order by x.version desc limit s.most) e
  join act a on a.id = e.act
), seen as materialized (
  select s.at, s.by, s.device from hit join scan s on s.subject = hit.piece order by s.at desc limit 1
), known as materialized (
  select array_agg(distinct id) filter (where id not in (select g.id from garment g)) as ids from (
    select unnest(array[holder, member, owner]) as id from garment
    union all select unnest(array[with_piece, placed_by]) from held
    union all select by from told union all select by from seen
    union all (select s.holder from hit join stay s on s.piece = hit.piece order by s.n desc limit 6)) i
)
select hit.names as names_what, hit.subject, hit.piece, hit.root,
${GARMENT_FACTS},
  (select json_agg(f.code order by f.code) from foreign_code f where f.piece = hit.piece) as codes,
  (select json_agg(t) from told t) as told,
  (select row_to_json(s) from seen s) as seen,
  (select json_agg(x) from (${NAMES_OF_KNOWN}) x) as names
from hit`;
}
