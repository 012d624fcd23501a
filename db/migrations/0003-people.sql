-- What is personal or secret: outside the ledger, correctable and removable without breaking a chain.

create table person (
  id uuid primary key,
  name text not null check (length(name) between 1 and 200)
);
create index person_name on person using gin (name gin_trgm_ops);

create table credential (
  account uuid primary key,
  -- argon2id with its parameters, salt and digest.
  passphrase jsonb,
  pin jsonb,
  failed_tries integer not null default 0,
  locked_until timestamptz
);

-- One-time links: 256 bits, hashed at rest, used once, 24 hours.
create table one_time_link (
  token_hash bytea primary key check (length(token_hash) = 32),
  purpose text not null check (purpose in ('first manager', 'join', 'new passphrase')),
  account uuid,
  role text,
  expires_at timestamptz not null,
  used_at timestamptz
);

create table session (
  token_hash bytea primary key check (length(token_hash) = 32),
  account uuid not null,
  device text not null,
  -- "full" after a passphrase or PIN; "badge" after a bare badge, enough for turn-in only.
  strength text not null check (strength in ('full', 'badge')),
  started_at timestamptz not null,
  seen_at timestamptz not null,
  expires_at timestamptz not null,
  ended_at timestamptz
);
create index session_account on session (account) where ended_at is null;

-- Files brought in, by the hash of their bytes: the same file twice changes nothing.
create table import_file (
  sha256 bytea primary key check (length(sha256) = 32),
  name text not null,
  what text not null,
  brought_in_at timestamptz not null default clock_timestamp(),
  by uuid not null,
  accepted integer not null,
  parked jsonb not null default '[]'
);

create table print_run (
  id uuid primary key,
  made_at timestamptz not null default clock_timestamp(),
  by uuid not null,
  stock text not null,
  dpi integer not null,
  label_count integer not null
);

-- Look-ups and prints of a member's page: members see who looked at their record.
create table viewing (
  id bigint generated always as identity primary key,
  at timestamptz not null default clock_timestamp(),
  member uuid not null,
  by uuid not null
);
create index viewing_member on viewing (member, at desc);

grant select, insert, update, delete on person, credential, one_time_link, session, import_file, print_run to layertrail_app;
grant select, insert on viewing to layertrail_app;
