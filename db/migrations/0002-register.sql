-- What the ledger says now, as tables. Every row is computed from entries and can be rebuilt from them alone.
-- No foreign keys between subjects: each subject is projected by itself, in any order, when the tables are rebuilt.

-- What a 12-symbol number names. One numbering for tags and cards, so that one look tells what was scanned.
create table numbered (
  number text primary key check (number ~ '^[0-9CDFGHJKNPRTVX]{12}$'),
  names text not null check (names in ('tag', 'place', 'member', 'badge', 'action')),
  subject uuid not null,
  version integer not null
);
create index numbered_subject on numbered (subject);

create table kind (
  id uuid primary key,
  code text not null unique,
  name text not null,
  family text not null check (family in ('structural', 'proximity', 'wildland', 'technical rescue', 'other')),
  garment text check (garment in ('coat', 'pants', 'coverall')),
  layer text check (layer in ('shell', 'liner', 'thermal-layer', 'moisture-layer', 'winter-liner', 'drd')),
  counted boolean not null,
  positions text[] not null,
  version integer not null
);

create table place (
  id uuid primary key,
  name text not null,
  what text not null,
  carries text not null check (carries in ('closed', 'shared', 'apart')),
  side text check (side in ('soiled', 'clean')),
  within uuid,
  number text,
  closed boolean not null,
  version integer not null
);
create unique index place_name on place (lower(name)) where not closed;

create table member (
  id uuid primary key,
  number text not null unique,
  station uuid,
  shift text,
  left_on date,
  card text,
  version integer not null
);

create table provider (
  id uuid primary key,
  name text not null,
  verified_until date,
  closed boolean not null,
  version integer not null
);

create table outside (
  id uuid primary key,
  name text not null,
  what text not null,
  version integer not null
);

create table model (
  id uuid primary key,
  maker text not null,
  name text not null,
  kind text not null,
  layers text[] not null,
  wash text,
  source text not null,
  source_by uuid not null,
  source_on date,
  version integer not null
);
create unique index model_name on model (lower(maker), lower(name), kind);

create table model_takes (
  model uuid not null,
  n integer not null,
  layer_kind text not null,
  takes_model uuid,
  takes_code text,
  primary key (model, n),
  check (takes_model is not null or takes_code is not null)
);

create table acceptance (
  id uuid primary key,
  scope jsonb not null,
  said_by text not null check (said_by in ('maker', 'provider')),
  said_by_name text not null,
  document text not null,
  said_on date not null,
  withdrawn boolean not null,
  version integer not null
);

create table setting (
  name text primary key,
  policy uuid not null,
  value jsonb not null,
  version integer not null
);

create table account (
  id uuid primary key,
  role text not null check (role in
    ('technician', 'inspector', 'program manager', 'company officer', 'member', 'reader')),
  member uuid,
  station uuid,
  badge text,
  closed boolean not null,
  version integer not null
);

create table piece (
  id uuid primary key,
  kind text not null,
  model uuid,
  maker text,
  model_name text,
  size text,
  pattern text,
  liner_code text,
  serial text,
  lot text,
  cut_number text,
  made_on text,
  materials text,
  label_reading text not null check (label_reading in ('not yet read', 'read', 'not legible')),
  owner_kind text not null check (owner_kind in ('department', 'member', 'provider', 'other department', 'maker')),
  owner uuid,
  funding text,
  purchase_order text,
  price_cents bigint,
  in_service_on date,
  holder_kind text not null check (holder_kind in
    ('place', 'member', 'provider', 'outside', 'in transit', 'whereabouts unknown')),
  holder uuid,
  held_since timestamptz not null,
  member uuid,
  set_name text,
  soiled boolean not null,
  washes integer not null,
  fitted_in uuid,
  held boolean not null,
  retired_at timestamptz,
  registered_at timestamptz not null,
  version integer not null,
  check ((holder is null) = (holder_kind in ('in transit', 'whereabouts unknown')))
);
create unique index piece_serial on piece (lower(maker), kind, lower(serial)) where serial is not null and maker is not null;
create index piece_holder on piece (holder, kind, id);
create index piece_member on piece (member) where member is not null;
create index piece_model on piece (kind, lower(model_name), size);
create index piece_fitted_in on piece (fitted_in) where fitted_in is not null;
create index piece_serial_text on piece using gin (serial gin_trgm_ops);
create index piece_held on piece (id) where held;
create index piece_soiled on piece (id) where soiled;
create index piece_registered on piece (registered_at desc, id desc);

-- One holder at every instant: stays of a piece never overlap and one is open.
create table stay (
  piece uuid not null,
  n integer not null,
  holder_kind text not null,
  holder uuid,
  from_at timestamptz not null,
  to_at timestamptz,
  evidence text not null,
  from_version integer not null,
  to_version integer,
  primary key (piece, n),
  check (to_at >= from_at),
  constraint stay_one_holder exclude using gist (piece with =, tstzrange(from_at, to_at) with &&)
);
create unique index stay_open on stay (piece) where to_at is null;
create index stay_holder on stay (holder, from_at) where holder is not null;

-- One open fitting a layer, and one layer of a kind in a shell.
create table fitting (
  layer uuid not null,
  n integer not null,
  layer_kind text not null,
  shell uuid not null,
  from_at timestamptz not null,
  to_at timestamptz,
  verdict text not null,
  evidence text not null,
  from_version integer not null,
  to_version integer,
  primary key (layer, n),
  check (to_at >= from_at),
  constraint fitting_one_shell exclude using gist (layer with =, tstzrange(from_at, to_at) with &&)
);
create unique index fitting_open on fitting (layer) where to_at is null;
create unique index fitting_one_of_a_kind on fitting (shell, layer_kind) where to_at is null;
create index fitting_shell on fitting (shell, from_at);

create table hold (
  piece uuid not null,
  version integer not null,
  hold_kind text not null,
  with_piece uuid,
  placed_at timestamptz not null,
  placed_by uuid not null,
  lifted_at timestamptz,
  lifted_version integer,
  primary key (piece, version)
);
create index hold_open on hold (piece) where lifted_at is null;

create table foreign_code (
  code text primary key,
  piece uuid not null,
  version integer not null
);
create index foreign_code_piece on foreign_code (piece);

create table tag (
  id uuid primary key,
  number text not null unique,
  state text not null check (state in
    ('reserved', 'printed', 'attached', 'superseded', 'lost', 'destroyed', 'void')),
  piece uuid,
  meant_for uuid,
  position text,
  run uuid,
  attached_at timestamptz,
  superseded_by text,
  version integer not null
);
create index tag_piece on tag (piece) where piece is not null;
-- A piece may carry several live tags, each at its own position.
-- Checked at commit, so that a new tag can take the place of an old one in one act.
alter table tag add constraint tag_position
  exclude (piece with =, position with =) where (state = 'attached') deferrable initially deferred;
create index tag_run on tag (run) where run is not null;
create index tag_number_text on tag using gin (number gin_trgm_ops);

grant select, insert, update, delete on numbered, kind, place, member, provider, outside, model, model_takes, acceptance,
  setting, account, piece, stay, fitting, hold, foreign_code, tag to layertrail_app;
