-- How people sign in: a name of their own choosing, tries that are counted before they are judged, and the benches
-- at which a badge and a PIN are enough because somebody signed in there with a passphrase before.

alter table credential add column sign_in_name text
  check (sign_in_name = lower(sign_in_name) and length(sign_in_name) between 2 and 64);
create unique index credential_sign_in_name on credential (sign_in_name);

create table bench_device (
  id uuid primary key,
  token_hash bytea not null unique check (length(token_hash) = 32),
  enrolled_by uuid not null,
  enrolled_at timestamptz not null
);

-- Four digits are few, so they are tried by account and device apart, and a wrong device locks nobody's bench.
create table pin_tries (
  account uuid not null,
  device uuid not null references bench_device on delete cascade,
  failed_tries integer not null,
  locked_until timestamptz,
  primary key (account, device)
);

alter table one_time_link add column made_by uuid;
create index one_time_link_account on one_time_link (account) where used_at is null;

grant select, insert, update, delete on bench_device, pin_tries to layertrail_app;
