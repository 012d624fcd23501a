const instant = (ms: string) => `to_timestamp((${ms})::double precision / 1000)`;

const KEYS_ASIDE = `do $$ declare k record; begin
  create temp table set_aside (line text);
  for k in select c.conrelid::regclass as t, c.conname, pg_get_constraintdef(c.oid) as def from pg_constraint c
    where c.conrelid in ('entry'::regclass, 'stay'::regclass, 'fitting'::regclass) and c.contype in ('f', 'x') loop
    insert into set_aside values (format('alter table %s add constraint %I %s', k.t, k.conname, k.def));
    execute format('alter table %s drop constraint %I', k.t, k.conname);
  end loop; end $$`;
const KEYS_BACK = `do $$ declare k record; begin
  for k in select line from set_aside loop execute k.line; end loop; end $$`;

/**
 * The chain over all acts, the reference ones first; those were recorded when the generator ran, and are put before
 * everything else so that recorded time never goes back. A loop, because each link needs the one before.
 */
const CHAIN = `do $$ declare a record; head bytea := decode(repeat('00', 32), 'hex'); at bigint := 0; next bytea; begin
  create temp table made_link (id uuid, position bigint, prev bytea, hash bytea);
  update act set recorded_at = act.at;
  for a in select id, digest, (extract(epoch from recorded_at) * 1000)::bigint as ms from act order by act.position loop
    at := at + 1;
    next := sha256(head || int8send(at) || a.digest || int8send(a.ms));
    update act set prev = head, hash = next where act.id = a.id;
    head := next;
  end loop;
  for a in select id, digest, made_digest.at as ms from made_digest order by line loop
    at := at + 1;
    next := sha256(head || int8send(at) || a.digest || int8send(a.ms));
    insert into made_link values (a.id, at, head, next);
    head := next;
  end loop;
  update ledger_head set position = at, hash = head,
    recorded_at = (select max(${instant("made_digest.at")}) from made_digest);
  end $$`;

const LEDGER: readonly string[] = [
  `create temp table made_digest as
   select a.id, a.line, a.at, a.command, sha256(convert_to(a.command || ' ' || a.line, 'UTF8')) as command_hash,
     e.entry_count, sha256(convert_to('{"appBuild":"generator","at":' || a.at || ',"atOffsetMin":-360,"by":"' || g.account
       || '","command":"' || a.command || '","commandHash":"' || encode(sha256(convert_to(a.command || ' ' || a.line, 'UTF8')), 'hex')
       || '","device":"generator","deviceSeq":' || a.line || ',"id":"' || a.id || '","sentAt":' || a.at || '}', 'UTF8') || e.hashes) as digest
   from made_act a cross join generated g join (
     select line, count(*)::int as entry_count, string_agg(sha256(convert_to(body, 'UTF8')), ''::bytea order by n) as hashes
     from made_entry group by line) e on e.line = a.line`,
  CHAIN,
  `insert into act (id, command, command_hash, by, device, device_seq, app_build, at, at_offset_min, sent_at, entry_count, digest,
     position, prev, hash, recorded_at)
   select d.id, d.command, d.command_hash, g.account, 'generator', d.line, 'generator', ${instant("d.at")}, -360, ${instant("d.at")},
     d.entry_count, d.digest, l.position, l.prev, l.hash, ${instant("d.at")}
   from made_digest d join made_link l on l.id = d.id cross join generated g order by l.position`,
  `insert into entry (subject, version, subject_kind, act, n, kind, bytes)
   select e.subject, e.version, e.subject_kind, d.id, e.n, e.kind, convert_to(e.body, 'UTF8')
   from made_entry e join made_digest d on d.line = e.line order by e.line, e.n`,
];

const PROJECTIONS: readonly string[] = [
  `insert into stay (piece, n, holder_kind, holder, from_at, to_at, evidence, from_version, to_version)
   select subject, row_number() over w, to_kind, to_id, ${instant("at")}, ${instant("lead(at) over w")}, evidence,
     version, lead(version) over w
   from made_entry where to_id is not null window w as (partition by subject order by version)`,
  `insert into fitting (layer, n, layer_kind, shell, from_at, to_at, verdict, evidence, from_version, to_version)
   select p.id, 1, p.kind, p.shell, ${instant("e.at")}, null, 'match', 'scanned', e.version, null
   from made_entry e join made_piece p on p.i = e.i where e.kind = 'LayerInstalled'`,
  `insert into hold (piece, version, hold_kind, placed_at, placed_by)
   select e.subject, e.version, 'finding', ${instant("e.at")}, g.account from made_entry e cross join generated g where e.kind = 'HoldPlaced'`,
  `insert into piece_cleaned (piece, n, cleaned_at, how, evidence, version)
   select subject, row_number() over (partition by subject order by version), ${instant("at")}, 'advanced cleaning', evidence, version
   from made_entry where kind = 'PieceCleaned'`,
  `insert into tag (id, number, state, piece, meant_for, position, run, attached_at, version)
   select p.tag, p.number, 'attached', p.id, p.id, p.position,
     ('018f0000-0000-7000-8000-0009' || lpad(to_hex(p.o), 8, '0'))::uuid, ${instant("e.at")}, 3
   from made_piece p join made_entry e on e.subject = p.tag and e.kind = 'TagAttached'`,
  `insert into numbered (number, names, subject, version) select number, 'tag', tag, 3 from made_piece`,
  `insert into piece (id, kind, model, maker, model_name, size, liner_code, serial, made_on, label_reading, owner_kind,
     in_service_on, holder_kind, holder, held_since, member, set_name, soiled, washes, fitted_in, held, retired_at,
     registered_at, version, seen_at, wet, soiled_since)
   select p.id, p.kind, p.model, 'Tarnholt', 'K7', p.size, p.liner_code, p.serial, '2023-08', 'read', 'department',
     '2024-03-01', s.holder_kind, s.holder, s.from_at, p.member, p.set_name, m.ends = 'soiled', t.washes, p.shell,
     t.is_held, ${instant("t.retired")}, ${instant("p.t0")}, t.version, ${instant("t.seen")}, false,
     case when m.ends = 'soiled' then ${instant("t.turned_in")} end
   from made_piece p join made_set m on m.o = p.o join stay s on s.piece = p.id and s.to_at is null
   join (select subject, max(version) as version, count(*) filter (where kind = 'PieceCleaned') as washes,
       bool_or(kind = 'HoldPlaced') as is_held, max(at) filter (where kind = 'PieceRetired') as retired,
       max(at) filter (where evidence in ('scanned', 'typed')) as seen,
       max(at) filter (where kind = 'PieceMoved' and body like '%"soiled":true%') as turned_in
     from made_entry where subject_kind = 'piece' group by subject) t on t.subject = p.id
   order by p.id`,
];

/** The rows of ledger and tables, with keys put aside while they come and checked in bulk after. */
export const GENERATED_TABLES: readonly string[] = [
  KEYS_ASIDE,
  "create index on made_entry (subject)",
  "analyze made_entry, made_piece, made_act",
  ...LEDGER,
  ...PROJECTIONS,
  KEYS_BACK,
  `drop table generated, made_set, made_piece, made_act, made_entry, made_digest, made_link, set_aside`,
  "vacuum analyze entry, act, piece, tag, numbered, stay, fitting, hold, member, person",
];
