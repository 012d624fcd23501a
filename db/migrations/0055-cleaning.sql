-- Machines, their programmes and checks, the loads that ran in them, and what else belongs to cleaning: places that
-- were wiped, gear that came in wet, and what people left in their pockets.

create table machine (
  id uuid primary key,
  name text not null,
  what text not null check (what in ('washer-extractor', 'dryer', 'cabinet', 'by hand')),
  -- Its card is the card of this place.
  place uuid not null,
  drum_diameter_mm integer,
  most_garments integer,
  closed boolean not null,
  version integer not null
);
create unique index machine_place on machine (place) where not closed;

create table machine_check (
  machine uuid not null,
  version integer not null,
  checked_at timestamptz not null,
  outcome text not null check (outcome in ('in order', 'faulty')),
  primary key (machine, version)
);

create table programme (
  id uuid primary key,
  machine uuid not null,
  name text not null,
  -- Null for one that only dries.
  how text,
  temperature integer,
  temperature_scale text check (temperature_scale in ('F', 'C')),
  detergent_ph_tenths integer,
  extraction_rpm integer,
  minutes integer,
  usual boolean not null,
  ended boolean not null
);
create index programme_machine on programme (machine);

create table load (
  id uuid primary key,
  -- In a machine of the department that stands at a place, or at a provider by a manifest.
  machine uuid,
  place uuid,
  programme uuid,
  provider uuid,
  document text,
  how text,
  started_at timestamptz not null,
  ended_at timestamptz,
  outcome text check (outcome in ('as programmed', 'aborted')),
  -- Of a load remembered late: when it was said to have ended, and by how much that can be off.
  about_at timestamptz,
  about_minutes integer,
  despite text[] not null,
  evidence text not null,
  read integer,
  read_scale text check (read_scale in ('F', 'C')),
  version integer not null,
  check ((machine is null) <> (provider is null))
);
create index load_machine on load (machine, started_at) where machine is not null;
create index load_provider on load (provider, started_at) where provider is not null;
-- A machine runs one load at a time.
create unique index load_running on load (machine) where ended_at is null;

alter table stay add column load uuid;
create index stay_load on stay (load) where load is not null;

create table place_cleaned (
  place uuid not null,
  n integer not null,
  cleaned_at timestamptz not null,
  primary key (place, n)
);

alter table piece add column wet boolean not null default false;
alter table piece alter column wet drop default;

create table found_property (
  receipt text primary key,
  piece uuid not null,
  version integer not null,
  found_at timestamptz not null,
  given_back_at timestamptz,
  given_back_to uuid
);
create index found_property_piece on found_property (piece);

alter table named drop constraint named_kind_check;
alter table named add constraint named_kind_check
  check (kind in ('place', 'member', 'provider', 'outside', 'account', 'model', 'contamination-event', 'machine'));

-- Limits for washing programmes begin with the values of the 2014/2020 family, as a setting that nobody set does.
insert into setting (name, policy, value, version)
  select limits.name, any_setting.policy, to_jsonb(limits.value), any_setting.version
  from (select policy, version from setting where name = 'time zone') any_setting,
    (values ('wash temperature, most °F', '105'), ('wash temperature, most °C', '40'), ('detergent pH, least', '6.0'),
      ('detergent pH, most', '10.5'), ('extraction, most G', '100')) limits (name, value);

grant select, insert, update, delete on machine, machine_check, programme, load, place_cleaned, found_property
  to layertrail_app;
