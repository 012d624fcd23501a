-- Who or what an id on a screen stands for, in one table: asking seven tables for each id was the dearest part of a
-- look-up. Pieces are not here: there are too many, and their names follow from kind and tag.
create table named (
  id uuid primary key,
  kind text not null check (kind in ('place', 'member', 'provider', 'outside', 'account', 'model')),
  -- Null for people: their names stand in person, where they can be corrected and removed.
  name text,
  -- A member's number, an account's role, a model's maker, what an outside party is.
  detail text,
  -- The place that a place is within, a member's station, the member behind an account.
  up uuid,
  version integer not null
);
grant select, insert, update, delete on named to layertrail_app;

insert into named (id, kind, name, detail, up, version)
  select id, 'place', name, null, within, version from place
  union all select id, 'member', null, number, station, version from member
  union all select id, 'provider', name, null, null, version from provider
  union all select id, 'outside', name, what, null, version from outside
  union all select id, 'account', null, role, member, version from account
  union all select id, 'model', name, maker, null, version from model;
