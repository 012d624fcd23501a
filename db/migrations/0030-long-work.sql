-- Long work: jobs that any server of the department can tell about, files on their way in, and prints.

create table job (
  id uuid primary key,
  lane text not null check (lane in ('import', 'print')),
  what text not null,
  -- The upload or the print run that it works on; what it made stands there.
  about uuid not null,
  by uuid not null,
  state text not null check (state in ('waiting', 'running', 'done', 'refused', 'cancelled', 'failed')),
  step text not null,
  done integer not null default 0,
  total integer not null default 0,
  -- What, why and next of a refused job, in words.
  reasons jsonb not null default '[]',
  made_at timestamptz not null default clock_timestamp(),
  -- Its server says every few seconds that it is still there: a job dies with its server.
  beat_at timestamptz not null default clock_timestamp(),
  ended_at timestamptz,
  cancel_asked boolean not null default false
);
create index job_about on job (about, made_at desc);
create index job_open on job (id) where ended_at is null;

-- A file between its arrival and its acceptance. Kept for a day; what was accepted stands in import_file.
create table import_upload (
  id uuid primary key,
  what text not null check (what in ('pieces', 'models', 'members')),
  name text not null,
  by uuid not null,
  made_at timestamptz not null default clock_timestamp(),
  sha256 bytea not null check (length(sha256) = 32),
  bytes bytea,
  -- The caller's word on columns: field to column number, or null for none.
  columns jsonb not null default '{}',
  preview jsonb,
  parked_csv text,
  accepted_at timestamptz
);
create index import_upload_made on import_upload (made_at);

create table import_problem (
  upload uuid not null references import_upload on delete cascade,
  n integer not null,
  row_number integer not null,
  column_number integer,
  header text,
  code text not null,
  value text,
  says text not null,
  primary key (upload, n)
);

-- Parked rows are kept as the file that a person downloads.
alter table import_file drop column parked;
alter table import_file add column parked integer not null default 0;
alter table import_file add column parked_csv text;
alter table import_file add column act uuid;
create index import_file_brought_in on import_file (brought_in_at desc);

alter table print_run add column what text not null default 'tags' check (what in ('tags', 'cards'));
alter table print_run add column media jsonb not null default '{}';
alter table print_run add column words text not null default 'all';
-- The numbers of the run in the order of its labels: a reprint has numbers that an earlier run reserved.
alter table print_run add column numbers text[] not null default '{}';
create index print_run_made on print_run (made_at desc);

-- Drawn files, kept for a week; the record can draw them again.
create table print_file (
  run uuid not null references print_run on delete cascade,
  n integer not null check (n >= 1),
  label_count integer not null,
  bytes bytea not null,
  made_at timestamptz not null default clock_timestamp(),
  primary key (run, n)
);

grant select, insert, update, delete on job, import_upload, import_problem, print_file to layertrail_app;
