-- Contamination events, what each kind of contaminant asks for, and which pieces met what.
-- Reads of a piece ask for its meetings and its holds; the screen of an event asks for its members and pieces.

create table contamination_event (
  id uuid primary key,
  name text not null,
  from_at timestamptz not null,
  to_at timestamptz not null,
  place uuid,
  where_told text,
  incident text,
  kinds text[] not null check (cardinality(kinds) > 0),
  version integer not null,
  check (to_at >= from_at)
);
create index contamination_event_from on contamination_event (from_at desc, id desc);

create table event_member (
  event uuid not null,
  member uuid not null,
  -- Null while nobody said which of the member's sets was worn.
  set_name text,
  evidence text not null,
  version integer not null,
  primary key (event, member)
);
create index event_member_member on event_member (member);

create table piece_met (
  piece uuid not null,
  n integer not null,
  event uuid not null,
  met_from timestamptz not null,
  met_to timestamptz not null,
  evidence text not null,
  version integer not null,
  primary key (piece, n),
  check (met_to >= met_from)
);
create unique index piece_met_event on piece_met (event, piece);

-- What the department ruled of a kind of contaminant; what it did not rule stands in the program, with its source.
create table contaminant (
  code text primary key,
  policy uuid not null,
  rule jsonb not null,
  version integer not null
);

alter table hold add column event uuid;
create index hold_event on hold (event) where event is not null;

alter table named drop constraint named_kind_check;
alter table named add constraint named_kind_check check
  (kind in ('place', 'member', 'provider', 'outside', 'account', 'model', 'contamination-event'));

-- Members see who looked at the list of an event that they are on; null for a look at their own page.
alter table viewing add column event uuid;
create index viewing_event on viewing (event, at desc) where event is not null;

grant select, insert, update, delete on contamination_event, event_member, piece_met, contaminant to layertrail_app;
