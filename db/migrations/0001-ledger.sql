-- The ledger: acts in one chain, entries by subject, texts apart from what is hashed.
-- The application may add to act and entry and read them, and nothing else: a mistake is corrected by a later entry.

create extension if not exists btree_gist;
create extension if not exists pg_trgm;

do $$
begin
  if not exists (select from pg_roles where rolname = 'layertrail_app') then
    create role layertrail_app nologin;
  end if;
end
$$;

grant usage on schema public to layertrail_app;

create table act (
  id uuid primary key,
  command text not null,
  command_hash bytea not null check (length(command_hash) = 32),
  -- An account; no foreign key, since accounts are themselves projected from entries.
  by uuid not null,
  device text not null,
  device_seq bigint not null,
  app_build text not null,
  at timestamptz not null,
  at_offset_min smallint not null check (at_offset_min between -840 and 840),
  sent_at timestamptz not null,
  entry_count integer not null check (entry_count > 0),
  -- SHA-256 over the canonical act and the hashes of its entries; what the chain binds.
  digest bytea not null check (length(digest) = 32),
  position bigint not null unique check (position > 0),
  prev bytea not null check (length(prev) = 32),
  hash bytea not null unique check (length(hash) = 32),
  recorded_at timestamptz not null
);
create index act_recorded_at on act (recorded_at);

create table entry (
  subject uuid not null,
  version integer not null check (version >= 1),
  subject_kind text not null check (subject_kind in (
    'piece', 'tag', 'place', 'member', 'provider', 'outside', 'kind', 'model', 'acceptance', 'load', 'machine',
    'notice', 'contamination-event', 'policy', 'account', 'trace')),
  act uuid not null references act deferrable initially deferred,
  n integer not null check (n >= 1),
  kind text not null,
  bytes bytea not null,
  hash bytea not null generated always as (sha256(bytes)) stored,
  prior integer generated always as (nullif(version - 1, 0)) stored,
  primary key (subject, version),
  unique (act, n),
  foreign key (subject, prior) references entry (subject, version)
);

-- Free text lives here; the entry's bytes hold SHA-256(salt || text), so that a text can be withdrawn later.
create table entry_text (
  subject uuid not null,
  version integer not null,
  name text not null,
  salt bytea not null check (length(salt) = 16),
  body text,
  primary key (subject, version, name),
  foreign key (subject, version) references entry (subject, version)
);

create table ledger_head (
  single boolean primary key default true check (single),
  position bigint not null,
  hash bytea not null,
  recorded_at timestamptz not null
);
insert into ledger_head (position, hash, recorded_at)
  values (0, decode(repeat('00', 32), 'hex'), '1970-01-01T00:00:00Z');

-- Every scan with its answer; append-only, no part of the ledger, pruned by policy.
create table scan (
  id bigint generated always as identity primary key,
  at timestamptz not null default clock_timestamp(),
  by uuid not null,
  device text not null,
  via text not null check (via in ('wedge', 'camera', 'typed')),
  mode text not null,
  text text not null check (length(text) <= 400),
  names text,
  subject uuid,
  -- The act it ended in, or the codes of the refusals that it met; neither for a look-up.
  act uuid,
  answer text[] not null default '{}'
);
create index scan_subject on scan (subject, at desc);
create index scan_at on scan (at);

grant select, insert on act, entry, scan to layertrail_app;
grant select, insert, update on entry_text to layertrail_app;
grant select, update on ledger_head to layertrail_app;
