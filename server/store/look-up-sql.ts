import { NAMES_OF_IDS } from "./names.ts";

/**
 * One question that finds what a number, a foreign code or an id names and gathers all that the bench shows of the
 * piece: one round trip, because the bench waits for it. The text is constant, so that each connection plans it once
 * (planning it anew costs more than running it). $1 a 12-symbol number, $2 a foreign code, $3 a piece; first one wins.
 * Bodies of entries come as text: they are read by the one reader of entry bytes.
 */
export const LOOK_UP = `/* prepared: look-up */
with hit as materialized (
  select * from (
    select 1 as rank, n.names, n.subject,
      case when n.names = 'tag' then (select t.piece from tag t where t.id = n.subject) end as piece
    from numbered n where n.number = $1::text
    union all
    select 2, 'foreign', f.piece, f.piece from foreign_code f where f.code = $2::text
    union all
    select 3, 'piece', p.id, p.id from piece p where p.id = $3::uuid
  ) h order by rank limit 1
), root as materialized (
  select coalesce(p.fitted_in, p.id) as id, hit.piece from hit join piece p on p.id = hit.piece
), garment as materialized (
  select p.* from root join piece p on p.id = root.id
  union all
  select p.* from root join piece p on p.fitted_in = root.id
), held as materialized (
  select h.* from garment g join hold h on h.piece = g.id and h.lifted_at is null
), told as materialized (
  select e.subject, e.subject_kind, e.version, e.act, convert_from(e.bytes, 'UTF8') as body,
    a.position, a.command, a.at, a.recorded_at, a.by
  from (select piece as id from hit union all select t.id from hit join tag t on t.piece = hit.piece) s
  cross join lateral (select * from entry x where x.subject = s.id order by x.version desc limit 8) e
  join act a on a.id = e.act
  order by a.position desc, e.n desc limit 12
), seen as materialized (
  select s.at, s.by, s.device from hit join scan s on s.subject = hit.piece order by s.at desc limit 1
), ids as materialized (
  select holder as id from garment union select member from garment union select owner from garment
  union select id from garment
  union select with_piece from held union select placed_by from held
  union select by from told union select by from seen
  union select m[1]::uuid from told cross join lateral
    regexp_matches(body, '[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}', 'g') m
), rules as materialized (
  select coalesce((select value #>> '{}' from setting where name = 'time zone'), 'UTC') as zone,
    (select value #>> '{}' from setting where name = 'labels not read') as unread
)
select hit.names as names_what, hit.subject, hit.piece, root.id as root, rules.unread as labels_not_read,
  (select json_agg(g) from garment g) as pieces,
  (select json_agg(k) from kind k where k.code in (select kind from garment)) as kinds,
  (select json_agg(t) from (
    select t.piece, t.number, t.state, t.position, t.attached_at, t.superseded_by,
      case when t.state in ('superseded', 'lost', 'destroyed') then (
        select convert_from(e.bytes, 'UTF8')::json ->> 'at' from entry e
        where e.subject = t.id and e.version = t.version) end as ended_at_ms
    from garment g join tag t on t.piece = g.id order by t.state <> 'attached', t.position, t.number) t) as tags,
  (select json_agg(h order by h.version) from held h) as holds,
  (select json_agg(f order by f.layer_kind) from fitting f where f.shell = root.id and f.to_at is null) as fittings,
  (select json_agg(json_build_object('id', m.id, 'maker', m.maker, 'name', m.name, 'layers', m.layers))
    from model m where m.id in (select model from garment)) as models,
  (select json_agg(json_build_object('model', t.model, 'layer_kind', t.layer_kind, 'takes_model', t.takes_model,
      'takes_code', t.takes_code, 'takes_name', m.name) order by t.n)
    from garment g join model_takes t on t.model = g.model left join model m on m.id = t.takes_model
    where g.id = root.id) as takes,
  (select json_agg(w order by w.id) from acceptance w where not w.withdrawn and case w.scope ->> 'what'
    when 'pieces' then exists (
      select from garment g where g.id::text in (w.scope ->> 'shell', w.scope ->> 'layer'))
    when 'models' then exists (select from garment g where g.model::text = w.scope ->> 'shellModel')
    else true end) as words,
  (select json_agg(json_build_object('outer', b.shell, 'inner', b.layer, 'by', b.compared_by,
      'on', to_char(b.compared_at at time zone rules.zone, 'YYYY-MM-DD')) order by b.layer, b.n)
    from by_eye b where b.shell = root.id or b.layer = hit.piece) as eyes,
  (select json_agg(f.code order by f.code) from foreign_code f where f.piece = hit.piece) as codes,
  (select json_agg(t) from told t) as told,
  (select row_to_json(s) from seen s) as seen,
  (select json_agg(x) from (${NAMES_OF_IDS}) x) as names
from hit left join root on true cross join rules`;
