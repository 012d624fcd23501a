/** SQL that makes up sets, pieces, what was done to them, and the tables that follow. Run in this order, one by one. */

const START_MS = Date.UTC(2024, 1, 1);
const KINDS = [
  "coat-shell",
  "coat-liner",
  "drd",
  "pants-shell",
  "pants-liner",
  "hood",
  "helmet",
  "glove-pair",
  "boot-pair",
];
const SIZES = ["38 32 R", "40 32 R", "42 32 R", "44 32 R", "46 32 R", "46 35 L", "48 32 R", "50 35 L"];
const HOUR = 3_600_000;
const DAY = 24 * HOUR;

const list = (texts: readonly string[]) => `array[${texts.map((text) => `'${text}'`).join(", ")}]`;
const reference = (series: number, count: string) =>
  `('018f0000-0000-7000-8000-${series.toString(16).padStart(4, "0")}' || lpad(to_hex(${count}), 8, '0'))::uuid`;
const uuidV7 = (ms: string, seed: string) =>
  `(select (substr(h, 1, 8) || '-' || substr(h, 9, 4) || '-7' || substr(m, 1, 3) || '-8' || substr(m, 4, 3) || '-' || substr(m, 7, 12))::uuid
    from (select lpad(to_hex(${ms}), 12, '0') as h, md5(${seed}) as m) v)`;

/**
 * Sets end issued (6 of 10), on their rack (2), or turned in and soiled (2). Every fifth went round twice.
 * The last two symbols of a number solve Σ i·c = Σ i²·c = 0 modulo 23, where 21 is the inverse of 11.
 */
export const GENERATED_PIECES: readonly string[] = [
  `create temp table made_set as
   select o, ${START_MS} + o::bigint * 7919000000 % ${60 * DAY} as t0,
     1 + (o % 5 = 0)::int as cycles,
     case when o % 10 < 6 then 'issued' when o % 10 < 8 then 'stored' else 'soiled' end as ends,
     ${reference(6, "1 + (o - 1) % members")} as member,
     case when o <= members then 'front-line' else 'second' end as set_name,
     ${reference(7, "1 + (o / 10 * 2 + o % 2) % racks")} as rack
   from generated cross join generate_series(1, sets) o`,
  `create temp table made_piece as
   select i, o, k, (${list(KINDS)})[k] as kind, k in (2, 3, 5) as is_layer, k in (1, 4) as is_shell,
     (${list(SIZES)})[1 + o % ${SIZES.length}] as size, 'T' || lpad(i::text, 7, '0') as serial,
     case when k in (1, 2, 4, 5) then 'LK-2' when k = 3 then 'D-1' end as liner_code,
     case k when 1 then ${reference(3, "1")} when 4 then ${reference(3, "2")} end as model,
     ${uuidV7("t0 + k", "'piece ' || i")} as id, ${uuidV7("t0 + k", "'tag ' || i")} as tag,
     case when k in (8, 9) then 'left' else 'main' end as position,
     t0, member, set_name, rack
   from (select s.*, k, (s.o - 1) * 9 + k as i from made_set s cross join generate_series(1, 9) k) numbered`,
  `alter table made_piece add column number text, add column shell uuid`,
  `update made_piece p set number = n.number from (
     select i, string_agg(substr('0123456789CDFGHJKNPRTVX', v + 1, 1), '' order by place) as number from (
       select i, place, v from made_piece cross join lateral (
         select place, case when place = 1 then 10 + get_byte(m, 1) % 13 else get_byte(m, place) % 23 end as v
         from (select decode(md5('number ' || i), 'hex') as m) d cross join generate_series(1, 10) place) ten
       union all
       select i, checked.place, (((checked.value % 23) + 23) % 23)::int from (
         select i, sum(place * v) as s1, sum(place * place * v) as s2 from made_piece cross join lateral (
           select place, case when place = 1 then 10 + get_byte(m, 1) % 13 else get_byte(m, place) % 23 end as v
           from (select decode(md5('number ' || i), 'hex') as m) d cross join generate_series(1, 10) place) ten
         group by i) sums
       cross join lateral (values (11, (s2 - 12 * s1) * 21), (12, (s2 - 11 * s1) * 21)) checked(place, value)
     ) symbols group by i) n where n.i = p.i`,
  `update made_piece p set shell = s.id from made_piece s
   where p.is_layer and s.o = p.o and s.k = case p.k when 5 then 4 else 1 end`,
  `create index on made_piece (o)`,
];

/** One row an act: when, what, and in which order all of them came. */
export const GENERATED_ACTS: readonly string[] = [
  `create temp table made_act as
   select *, ${uuidV7("at", "'act ' || o || ' ' || step")} as id, row_number() over (order by at, o, step) as line from (
     select o, step, t0 + after as at, command, cycle, row_number() over (partition by o order by after) as turn
     from made_set cross join lateral (
       select * from (values (1, 0::bigint, 'registerPieces', 0), (2, ${HOUR}, 'reserveTags', 0),
         (3, ${2 * HOUR}, 'printTags', 0), (4, ${3 * HOUR}, 'attachTag', 0), (5, ${4 * HOUR}, 'installLayer', 0)) first
       union all
       select 10 * c + part, (c - 1) * ${90 * DAY}::bigint + after, command, c from generate_series(1, cycles) c
         cross join (values (1, ${10 * DAY}::bigint, 'issue'), (2, ${70 * DAY}, 'turn in'), (3, ${71 * DAY}, 'clean'),
           (4, ${72 * DAY}, 'store')) round(part, after, command)
         where not (ends = 'soiled' and c = cycles and part > 2)
       union all
       select 91, cycles * ${90 * DAY}::bigint + ${10 * DAY}, 'issue', cycles + 1 where ends = 'issued'
       union all
       select 92, cycles * ${90 * DAY}::bigint + ${12 * DAY}, 'placeHold', 0 where o % 50 = 0
       union all
       select 93, cycles * ${90 * DAY}::bigint + ${13 * DAY}, 'retirePieces', 0 where o % 20 = 6
     ) steps(step, after, command, cycle)
   ) ordered`,
  `create index on made_act (o)`,
];

const about = (kind: string, id: string, version: string) =>
  `'{"about":{"id":"' || ${id} || '","kind":"${kind}","version":' || ${version} || '}'`;
const holder = (kind: string, id: string) => `'{"id":"' || ${id} || '","kind":"${kind}"}'`;
const ISOLATION = reference(5, "101");
const isSeen = "case when is_layer then 'with its set' else 'scanned' end";

/** The moves of a set, as what each says: from, to, purpose. Members sort before the rest of the body. */
const moved = (
  assignment: string,
  from: string,
  purpose: string,
  soiled: string,
  to: string,
) => `${about("piece", "p.id", "version")} || ${assignment} || ',"at":' || at || ',"evidence":"' || ${isSeen} || '","from":' || ${from}
  || ',"kind":"PieceMoved","purpose":"${purpose}","schema":1' || ${soiled} || ',"to":' || ${to}
  || case when is_layer then ',"within":"' || shell || '"' else '' end || '}'`;
const assigned = `',"assignment":{"member":"' || member || '","set":"' || set_name || '"}'`;

/** One row an entry, its body written as RFC 8785 wants it: members in order, no blanks. */
export const GENERATED_ENTRIES: readonly string[] = [
  `create temp table made_entry as
   select a.o, a.step, a.line, row_number() over (partition by a.line order by p.k) as n,
     case when subject_kind = 'tag' then p.tag else p.id end as subject, subject_kind, version, entry_kind as kind, a.at,
     evidence, to_kind, to_id, p.i, p.k, body
   from made_act a join made_piece p on p.o = a.o
   cross join lateral (select case
     when step = 1 then 1 when step between 2 and 4 then step - 1 when step = 5 then 2
     else turn - 4 + is_layer::int end::int as version) v
   cross join lateral (
     select 'piece' as subject_kind, 'PieceRegistered' as entry_kind, 'typed' as evidence, 'place' as to_kind, rack as to_id,
       ${about("piece", "p.id", "version")} || ',"at":' || at || ',"evidence":"typed","file":{"inServiceOn":"2024-03-01","owner":{"kind":"department"}}'
       || ',"holder":' || ${holder("place", "rack")} || ',"kind":"PieceRegistered","label":{'
       || case when liner_code is null then '' else '"linerCode":"' || liner_code || '",' end
       || '"madeOn":"2023-08","maker":"Tarnholt","modelName":"K7","serial":"' || serial || '","size":"' || size || '"}'
       || case when model is null then '' else ',"model":"' || model || '"' end
       || ',"pieceKind":"' || p.kind || '","reading":"read","schema":1}' as body where step = 1
     union all
     select 'tag', 'TagReserved', null, null, null, ${about("tag", "tag", "version")} || ',"at":' || at || ',"kind":"TagReserved","meantFor":"' || p.id
       || '","number":"' || number || '","run":"' || ${reference(9, "p.o")} || '","schema":1}' where step = 2
     union all
     select 'tag', 'TagPrinted', null, null, null, ${about("tag", "tag", "version")} || ',"at":' || at || ',"kind":"TagPrinted","run":"'
       || ${reference(9, "p.o")} || '","schema":1}' where step = 3
     union all
     select 'tag', 'TagAttached', null, null, null, ${about("tag", "tag", "version")} || ',"at":' || at || ',"kind":"TagAttached","piece":"' || p.id
       || '","position":"' || position || '","proof":"scanned","schema":1}' where step = 4
     union all
     select 'piece', 'LayerInstalled', 'scanned', null, null, ${about("piece", "p.id", "version")} || ',"at":' || at || ',"evidence":"scanned","kind":"LayerInstalled","layerKind":"'
       || p.kind || '","schema":1,"shell":"' || shell || '","verdict":"match"}' where step = 5 and is_layer
     union all
     select 'piece', 'PieceMoved', ${isSeen}, 'member', member, ${moved(assigned, holder("place", "rack"), "issue", "''", holder("member", "member"))} where command = 'issue'
     union all
     select 'piece', 'PieceMoved', ${isSeen}, 'place', ${ISOLATION}, ${moved("''", holder("member", "member"), "turn in", `',"soiled":true'`, holder("place", ISOLATION))} where command = 'turn in'
     union all
     select 'piece', 'PieceCleaned', 'scanned', null, null, ${about("piece", "p.id", "version")} || ',"at":' || at || ',"evidence":"scanned","how":"advanced cleaning","kind":"PieceCleaned","schema":1}' where command = 'clean'
     union all
     select 'piece', 'PieceMoved', ${isSeen}, 'place', rack, ${moved("''", holder("place", ISOLATION), "storage", "''", holder("place", "rack"))} where command = 'store'
     union all
     select 'piece', 'HoldPlaced', 'described', null, null, ${about("piece", "p.id", "version")} || ',"at":' || at || ',"by":"' || g.account
       || '","evidence":"described","hold":"finding","kind":"HoldPlaced","schema":1}' from generated g where step = 92 and k = 1
     union all
     select 'piece', 'PieceRetired', 'scanned', null, null, ${about("piece", "p.id", "version")} || ',"at":' || at || ',"evidence":"scanned","kind":"PieceRetired","method":"cut up","schema":1}'
       where step = 93 and k = 7
   ) e`,
];
export { GENERATED_TABLES } from "./generate-tables.ts";
