-- Cleanings of pieces as rows, kept traces with their outcomes, and who was where during a time.

create table piece_cleaned (
  piece uuid not null,
  n integer not null,
  cleaned_at timestamptz not null,
  how text not null,
  evidence text not null,
  version integer not null,
  primary key (piece, n)
);

-- Cleanings that stand, as a fold of the entries orders them: by time, then by the version whose place they have.
with recursive told as (
  select e.subject, e.version, e.kind, convert_from(e.bytes, 'UTF8')::jsonb as body
  from entry e where e.subject_kind = 'piece' and e.kind in ('PieceCleaned', 'EntryCorrected')
), standing as (
  select t.subject, t.version, case when t.kind = 'PieceCleaned' then t.body else t.body -> 'instead' end as fact,
    t.version as place
  from told t
  where not exists (select from told c where c.subject = t.subject and c.kind = 'EntryCorrected'
    and (c.body ->> 'corrects')::integer = t.version)
), placed as (
  select subject, version, fact, place from standing where fact ->> 'kind' = 'PieceCleaned'
  union all
  select p.subject, p.version, p.fact, (c.body ->> 'corrects')::integer
  from placed p join told c on c.subject = p.subject and c.version = p.place and c.kind = 'EntryCorrected'
), first_place as (
  select subject, version, fact, min(place) as place from placed group by subject, version, fact
)
insert into piece_cleaned (piece, n, cleaned_at, how, evidence, version)
  select subject, row_number() over (partition by subject order by (fact ->> 'at')::bigint, place),
    to_timestamp(((fact ->> 'at')::bigint)::numeric / 1000), fact ->> 'how', fact ->> 'evidence', version
  from first_place;

create table trace (
  id uuid primary key,
  name text not null,
  direction text not null check (direction in ('forward', 'backward')),
  is_drill boolean not null,
  -- Up to where the record was read.
  read_position bigint not null,
  kept_at timestamptz not null,
  kept_by uuid not null,
  contacts integer not null,
  -- What was asked, what was read for it, and what was found.
  facts jsonb not null,
  closed_at timestamptz,
  version integer not null
);
create index trace_kept on trace (kept_at desc, id desc);

create table trace_outcome (
  trace uuid not null,
  piece uuid not null,
  outcome text not null check (outcome in ('found', 'isolated', 'sent to wash', 'cleared', 'retired', 'not found')),
  outcome_at timestamptz not null,
  outcome_by uuid not null,
  evidence text not null,
  version integer not null,
  primary key (trace, piece)
);
create index trace_outcome_piece on trace_outcome (piece);

-- A walk asks who was with a holder during a time, at either end included, however long the record is.
create index stay_with_holder on stay using gist (holder, tstzrange(from_at, to_at, '[]')) where holder is not null;

alter table named drop constraint named_kind_check;
alter table named add constraint named_kind_check check
  (kind in ('place', 'member', 'provider', 'outside', 'account', 'model', 'contamination-event', 'machine', 'trace'));

grant select, insert, update, delete on piece_cleaned, trace, trace_outcome to layertrail_app;
