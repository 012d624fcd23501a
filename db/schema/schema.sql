-- Written by `npm run schema` from the migrated database. Do not edit; not meant to be run.

table acceptance
  id uuid not null
  scope jsonb not null
  said_by text not null
  said_by_name text not null
  document text not null
  said_on date not null
  withdrawn boolean not null
  version integer not null
  constraint acceptance_pkey: PRIMARY KEY (id)
  constraint acceptance_said_by_check: CHECK ((said_by = ANY (ARRAY['maker'::text, 'provider'::text])))
  grant layertrail_app: delete, insert, select, update

table account
  id uuid not null
  role text not null
  member uuid
  station uuid
  badge text
  closed boolean not null
  version integer not null
  constraint account_pkey: PRIMARY KEY (id)
  constraint account_role_check: CHECK ((role = ANY (ARRAY['technician'::text, 'inspector'::text, 'program manager'::text, 'company officer'::text, 'member'::text, 'reader'::text])))
  grant layertrail_app: delete, insert, select, update

table act
  id uuid not null
  command text not null
  command_hash bytea not null
  by uuid not null
  device text not null
  device_seq bigint not null
  app_build text not null
  at timestamp with time zone not null
  at_offset_min smallint not null
  sent_at timestamp with time zone not null
  entry_count integer not null
  digest bytea not null
  position bigint not null
  prev bytea not null
  hash bytea not null
  recorded_at timestamp with time zone not null
  constraint act_at_offset_min_check: CHECK (((at_offset_min >= '-840'::integer) AND (at_offset_min <= 840)))
  constraint act_command_hash_check: CHECK ((length(command_hash) = 32))
  constraint act_digest_check: CHECK ((length(digest) = 32))
  constraint act_entry_count_check: CHECK ((entry_count > 0))
  constraint act_hash_check: CHECK ((length(hash) = 32))
  constraint act_hash_key: UNIQUE (hash)
  constraint act_pkey: PRIMARY KEY (id)
  constraint act_position_check: CHECK (("position" > 0))
  constraint act_position_key: UNIQUE ("position")
  constraint act_prev_check: CHECK ((length(prev) = 32))
  CREATE INDEX act_recorded_at ON public.act USING btree (recorded_at)
  grant layertrail_app: insert, select

table bench_device
  id uuid not null
  token_hash bytea not null
  enrolled_by uuid not null
  enrolled_at timestamp with time zone not null
  constraint bench_device_pkey: PRIMARY KEY (id)
  constraint bench_device_token_hash_check: CHECK ((length(token_hash) = 32))
  constraint bench_device_token_hash_key: UNIQUE (token_hash)
  grant layertrail_app: delete, insert, select, update

table by_eye
  layer uuid not null
  n integer not null
  shell uuid not null
  compared_by uuid not null
  compared_at timestamp with time zone not null
  constraint by_eye_pkey: PRIMARY KEY (layer, n)
  CREATE INDEX by_eye_shell ON public.by_eye USING btree (shell)
  grant layertrail_app: delete, insert, select, update

table contaminant
  code text not null
  policy uuid not null
  rule jsonb not null
  version integer not null
  constraint contaminant_pkey: PRIMARY KEY (code)
  grant layertrail_app: delete, insert, select, update

table contamination_event
  id uuid not null
  name text not null
  from_at timestamp with time zone not null
  to_at timestamp with time zone not null
  place uuid
  where_told text
  incident text
  kinds text[] not null
  version integer not null
  constraint contamination_event_check: CHECK ((to_at >= from_at))
  constraint contamination_event_kinds_check: CHECK ((cardinality(kinds) > 0))
  constraint contamination_event_pkey: PRIMARY KEY (id)
  CREATE INDEX contamination_event_from ON public.contamination_event USING btree (from_at DESC, id DESC)
  grant layertrail_app: delete, insert, select, update

table credential
  account uuid not null
  passphrase jsonb
  pin jsonb
  failed_tries integer not null default 0
  locked_until timestamp with time zone
  sign_in_name text
  constraint credential_pkey: PRIMARY KEY (account)
  constraint credential_sign_in_name_check: CHECK (((sign_in_name = lower(sign_in_name)) AND ((length(sign_in_name) >= 2) AND (length(sign_in_name) <= 64))))
  CREATE UNIQUE INDEX credential_sign_in_name ON public.credential USING btree (sign_in_name)
  grant layertrail_app: delete, insert, select, update

table entry
  subject uuid not null
  version integer not null
  subject_kind text not null
  act uuid not null
  n integer not null
  kind text not null
  bytes bytea not null
  hash bytea not null generated sha256(bytes)
  prior integer generated NULLIF((version - 1), 0)
  constraint entry_act_fkey: FOREIGN KEY (act) REFERENCES act(id) DEFERRABLE INITIALLY DEFERRED
  constraint entry_act_n_key: UNIQUE (act, n)
  constraint entry_n_check: CHECK ((n >= 1))
  constraint entry_pkey: PRIMARY KEY (subject, version)
  constraint entry_subject_kind_check: CHECK ((subject_kind = ANY (ARRAY['piece'::text, 'tag'::text, 'place'::text, 'member'::text, 'provider'::text, 'outside'::text, 'kind'::text, 'model'::text, 'acceptance'::text, 'load'::text, 'machine'::text, 'notice'::text, 'contamination-event'::text, 'policy'::text, 'account'::text, 'trace'::text])))
  constraint entry_subject_prior_fkey: FOREIGN KEY (subject, prior) REFERENCES entry(subject, version)
  constraint entry_version_check: CHECK ((version >= 1))
  CREATE INDEX entry_corrected ON public.entry USING btree (subject, version) WHERE (kind = 'EntryCorrected'::text)
  grant layertrail_app: insert, select

table entry_text
  subject uuid not null
  version integer not null
  name text not null
  salt bytea not null
  body text
  constraint entry_text_pkey: PRIMARY KEY (subject, version, name)
  constraint entry_text_salt_check: CHECK ((length(salt) = 16))
  constraint entry_text_subject_version_fkey: FOREIGN KEY (subject, version) REFERENCES entry(subject, version)
  grant layertrail_app: insert, select, update

table event_member
  event uuid not null
  member uuid not null
  set_name text
  evidence text not null
  version integer not null
  constraint event_member_pkey: PRIMARY KEY (event, member)
  CREATE INDEX event_member_member ON public.event_member USING btree (member)
  grant layertrail_app: delete, insert, select, update

table fitting
  layer uuid not null
  n integer not null
  layer_kind text not null
  shell uuid not null
  from_at timestamp with time zone not null
  to_at timestamp with time zone
  verdict text not null
  evidence text not null
  from_version integer not null
  to_version integer
  constraint fitting_check: CHECK ((to_at >= from_at))
  constraint fitting_one_in_its_place: EXCLUDE USING gist (shell WITH =, layer_kind WITH =, tstzrange(from_at, to_at) WITH &&)
  constraint fitting_one_shell: EXCLUDE USING gist (layer WITH =, tstzrange(from_at, to_at) WITH &&)
  constraint fitting_pkey: PRIMARY KEY (layer, n)
  CREATE INDEX fitting_shell ON public.fitting USING btree (shell, from_at)
  CREATE UNIQUE INDEX fitting_one_of_a_kind ON public.fitting USING btree (shell, layer_kind) WHERE (to_at IS NULL)
  CREATE UNIQUE INDEX fitting_open ON public.fitting USING btree (layer) WHERE (to_at IS NULL)
  grant layertrail_app: delete, insert, select, update

table foreign_code
  code text not null
  piece uuid not null
  version integer not null
  constraint foreign_code_pkey: PRIMARY KEY (code)
  CREATE INDEX foreign_code_piece ON public.foreign_code USING btree (piece)
  grant layertrail_app: delete, insert, select, update

table found_property
  receipt text not null
  piece uuid not null
  version integer not null
  found_at timestamp with time zone not null
  given_back_at timestamp with time zone
  given_back_to uuid
  constraint found_property_pkey: PRIMARY KEY (receipt)
  CREATE INDEX found_property_piece ON public.found_property USING btree (piece)
  grant layertrail_app: delete, insert, select, update

table hold
  piece uuid not null
  version integer not null
  hold_kind text not null
  with_piece uuid
  placed_at timestamp with time zone not null
  placed_by uuid not null
  lifted_at timestamp with time zone
  lifted_version integer
  event uuid
  constraint hold_pkey: PRIMARY KEY (piece, version)
  CREATE INDEX hold_event ON public.hold USING btree (event) WHERE (event IS NOT NULL)
  CREATE INDEX hold_open ON public.hold USING btree (piece) WHERE (lifted_at IS NULL)
  CREATE INDEX hold_with_piece ON public.hold USING btree (with_piece) WHERE (with_piece IS NOT NULL)
  grant layertrail_app: delete, insert, select, update

table import_file
  sha256 bytea not null
  name text not null
  what text not null
  brought_in_at timestamp with time zone not null default clock_timestamp()
  by uuid not null
  accepted integer not null
  parked integer not null default 0
  parked_csv text
  act uuid
  constraint import_file_pkey: PRIMARY KEY (sha256)
  constraint import_file_sha256_check: CHECK ((length(sha256) = 32))
  CREATE INDEX import_file_brought_in ON public.import_file USING btree (brought_in_at DESC)
  grant layertrail_app: delete, insert, select, update

table import_problem
  upload uuid not null
  n integer not null
  row_number integer not null
  column_number integer
  header text
  code text not null
  value text
  says text not null
  constraint import_problem_pkey: PRIMARY KEY (upload, n)
  constraint import_problem_upload_fkey: FOREIGN KEY (upload) REFERENCES import_upload(id) ON DELETE CASCADE
  grant layertrail_app: delete, insert, select, update

table import_upload
  id uuid not null
  what text not null
  name text not null
  by uuid not null
  made_at timestamp with time zone not null default clock_timestamp()
  sha256 bytea not null
  bytes bytea
  columns jsonb not null default '{}'::jsonb
  preview jsonb
  parked_csv text
  accepted_at timestamp with time zone
  constraint import_upload_pkey: PRIMARY KEY (id)
  constraint import_upload_sha256_check: CHECK ((length(sha256) = 32))
  constraint import_upload_what_check: CHECK ((what = ANY (ARRAY['pieces'::text, 'models'::text, 'members'::text])))
  CREATE INDEX import_upload_made ON public.import_upload USING btree (made_at)
  grant layertrail_app: delete, insert, select, update

table job
  id uuid not null
  lane text not null
  what text not null
  about uuid not null
  by uuid not null
  state text not null
  step text not null
  done integer not null default 0
  total integer not null default 0
  reasons jsonb not null default '[]'::jsonb
  made_at timestamp with time zone not null default clock_timestamp()
  beat_at timestamp with time zone not null default clock_timestamp()
  ended_at timestamp with time zone
  cancel_asked boolean not null default false
  constraint job_lane_check: CHECK ((lane = ANY (ARRAY['import'::text, 'print'::text])))
  constraint job_pkey: PRIMARY KEY (id)
  constraint job_state_check: CHECK ((state = ANY (ARRAY['waiting'::text, 'running'::text, 'done'::text, 'refused'::text, 'cancelled'::text, 'failed'::text])))
  CREATE INDEX job_about ON public.job USING btree (about, made_at DESC)
  CREATE INDEX job_open ON public.job USING btree (id) WHERE (ended_at IS NULL)
  grant layertrail_app: delete, insert, select, update

table kind
  id uuid not null
  code text not null
  name text not null
  family text not null
  garment text
  layer text
  counted boolean not null
  positions text[] not null
  version integer not null
  constraint kind_code_key: UNIQUE (code)
  constraint kind_family_check: CHECK ((family = ANY (ARRAY['structural'::text, 'proximity'::text, 'wildland'::text, 'technical rescue'::text, 'other'::text])))
  constraint kind_garment_check: CHECK ((garment = ANY (ARRAY['coat'::text, 'pants'::text, 'coverall'::text])))
  constraint kind_layer_check: CHECK ((layer = ANY (ARRAY['shell'::text, 'liner'::text, 'thermal-layer'::text, 'moisture-layer'::text, 'winter-liner'::text, 'drd'::text])))
  constraint kind_pkey: PRIMARY KEY (id)
  grant layertrail_app: delete, insert, select, update

table ledger_head
  single boolean not null default true
  position bigint not null
  hash bytea not null
  recorded_at timestamp with time zone not null
  constraint ledger_head_pkey: PRIMARY KEY (single)
  constraint ledger_head_single_check: CHECK (single)
  grant layertrail_app: select, update

table load
  id uuid not null
  machine uuid
  place uuid
  programme uuid
  provider uuid
  document text
  how text
  started_at timestamp with time zone not null
  ended_at timestamp with time zone
  outcome text
  about_at timestamp with time zone
  about_minutes integer
  despite text[] not null
  evidence text not null
  read integer
  read_scale text
  version integer not null
  constraint load_check: CHECK (((machine IS NULL) <> (provider IS NULL)))
  constraint load_outcome_check: CHECK ((outcome = ANY (ARRAY['as programmed'::text, 'aborted'::text])))
  constraint load_pkey: PRIMARY KEY (id)
  constraint load_read_scale_check: CHECK ((read_scale = ANY (ARRAY['F'::text, 'C'::text])))
  CREATE INDEX load_ended ON public.load USING btree (ended_at) WHERE (ended_at IS NOT NULL)
  CREATE INDEX load_machine ON public.load USING btree (machine, started_at) WHERE (machine IS NOT NULL)
  CREATE INDEX load_provider ON public.load USING btree (provider, started_at) WHERE (provider IS NOT NULL)
  CREATE UNIQUE INDEX load_running ON public.load USING btree (machine) WHERE (ended_at IS NULL)
  grant layertrail_app: delete, insert, select, update

table machine
  id uuid not null
  name text not null
  what text not null
  place uuid not null
  drum_diameter_mm integer
  most_garments integer
  closed boolean not null
  version integer not null
  constraint machine_pkey: PRIMARY KEY (id)
  constraint machine_what_check: CHECK ((what = ANY (ARRAY['washer-extractor'::text, 'dryer'::text, 'cabinet'::text, 'by hand'::text])))
  CREATE UNIQUE INDEX machine_place ON public.machine USING btree (place) WHERE (NOT closed)
  grant layertrail_app: delete, insert, select, update

table machine_check
  machine uuid not null
  version integer not null
  checked_at timestamp with time zone not null
  outcome text not null
  constraint machine_check_outcome_check: CHECK ((outcome = ANY (ARRAY['in order'::text, 'faulty'::text])))
  constraint machine_check_pkey: PRIMARY KEY (machine, version)
  grant layertrail_app: delete, insert, select, update

table member
  id uuid not null
  number text not null
  station uuid
  shift text
  left_on date
  card text
  version integer not null
  constraint member_number_key: UNIQUE (number)
  constraint member_pkey: PRIMARY KEY (id)
  CREATE INDEX member_number_text ON public.member USING gin (number gin_trgm_ops)
  grant layertrail_app: delete, insert, select, update

table model
  id uuid not null
  maker text not null
  name text not null
  kind text not null
  layers text[] not null
  wash text
  source text not null
  source_by uuid not null
  source_on date
  version integer not null
  constraint model_pkey: PRIMARY KEY (id)
  CREATE UNIQUE INDEX model_name ON public.model USING btree (lower(maker), lower(name), kind)
  grant layertrail_app: delete, insert, select, update

table model_takes
  model uuid not null
  n integer not null
  layer_kind text not null
  takes_model uuid
  takes_code text
  constraint model_takes_check: CHECK (((takes_model IS NOT NULL) OR (takes_code IS NOT NULL)))
  constraint model_takes_pkey: PRIMARY KEY (model, n)
  grant layertrail_app: delete, insert, select, update

table named
  id uuid not null
  kind text not null
  name text
  detail text
  up uuid
  version integer not null
  constraint named_kind_check: CHECK ((kind = ANY (ARRAY['place'::text, 'member'::text, 'provider'::text, 'outside'::text, 'account'::text, 'model'::text, 'contamination-event'::text, 'machine'::text, 'trace'::text])))
  constraint named_pkey: PRIMARY KEY (id)
  grant layertrail_app: delete, insert, select, update

table numbered
  number text not null
  names text not null
  subject uuid not null
  version integer not null
  constraint numbered_names_check: CHECK ((names = ANY (ARRAY['tag'::text, 'place'::text, 'member'::text, 'badge'::text, 'action'::text])))
  constraint numbered_number_check: CHECK ((number ~ '^[0-9CDFGHJKNPRTVX]{12}$'::text))
  constraint numbered_pkey: PRIMARY KEY (number)
  CREATE INDEX numbered_subject ON public.numbered USING btree (subject)
  grant layertrail_app: delete, insert, select, update

table one_time_link
  token_hash bytea not null
  purpose text not null
  account uuid
  role text
  expires_at timestamp with time zone not null
  used_at timestamp with time zone
  made_by uuid
  constraint one_time_link_pkey: PRIMARY KEY (token_hash)
  constraint one_time_link_purpose_check: CHECK ((purpose = ANY (ARRAY['first manager'::text, 'join'::text, 'new passphrase'::text])))
  constraint one_time_link_token_hash_check: CHECK ((length(token_hash) = 32))
  CREATE INDEX one_time_link_account ON public.one_time_link USING btree (account) WHERE (used_at IS NULL)
  grant layertrail_app: delete, insert, select, update

table outside
  id uuid not null
  name text not null
  what text not null
  version integer not null
  closed boolean not null default false
  constraint outside_pkey: PRIMARY KEY (id)
  grant layertrail_app: delete, insert, select, update

table person
  id uuid not null
  name text not null
  constraint person_name_check: CHECK (((length(name) >= 1) AND (length(name) <= 200)))
  constraint person_pkey: PRIMARY KEY (id)
  CREATE INDEX person_name ON public.person USING gin (name gin_trgm_ops)
  grant layertrail_app: delete, insert, select, update

table piece
  id uuid not null
  kind text not null
  model uuid
  maker text
  model_name text
  size text
  pattern text
  liner_code text
  serial text
  lot text
  cut_number text
  made_on text
  materials text
  label_reading text not null
  owner_kind text not null
  owner uuid
  funding text
  purchase_order text
  price_cents bigint
  in_service_on date
  holder_kind text not null
  holder uuid
  held_since timestamp with time zone not null
  member uuid
  set_name text
  soiled boolean not null
  washes integer not null
  fitted_in uuid
  held boolean not null
  retired_at timestamp with time zone
  registered_at timestamp with time zone not null
  version integer not null
  seen_at timestamp with time zone
  wet boolean not null
  soiled_since timestamp with time zone
  constraint piece_check: CHECK (((holder IS NULL) = (holder_kind = ANY (ARRAY['in transit'::text, 'whereabouts unknown'::text]))))
  constraint piece_holder_kind_check: CHECK ((holder_kind = ANY (ARRAY['place'::text, 'member'::text, 'provider'::text, 'outside'::text, 'in transit'::text, 'whereabouts unknown'::text])))
  constraint piece_label_reading_check: CHECK ((label_reading = ANY (ARRAY['not yet read'::text, 'read'::text, 'not legible'::text])))
  constraint piece_owner_kind_check: CHECK ((owner_kind = ANY (ARRAY['department'::text, 'member'::text, 'provider'::text, 'other department'::text, 'maker'::text])))
  constraint piece_pkey: PRIMARY KEY (id)
  CREATE INDEX piece_fitted_in ON public.piece USING btree (fitted_in) WHERE (fitted_in IS NOT NULL)
  CREATE INDEX piece_held ON public.piece USING btree (id) WHERE held
  CREATE INDEX piece_holder ON public.piece USING btree (holder, kind, id)
  CREATE INDEX piece_holder_kind_order ON public.piece USING btree (holder_kind, id)
  CREATE INDEX piece_holder_order ON public.piece USING btree (holder, id) WHERE (holder IS NOT NULL)
  CREATE INDEX piece_kind_order ON public.piece USING btree (kind, id)
  CREATE INDEX piece_member ON public.piece USING btree (member) WHERE (member IS NOT NULL)
  CREATE INDEX piece_model ON public.piece USING btree (kind, lower(model_name), size)
  CREATE INDEX piece_model_order ON public.piece USING btree (lower(model_name), id)
  CREATE INDEX piece_model_row_order ON public.piece USING btree (model, id) WHERE (model IS NOT NULL)
  CREATE INDEX piece_registered ON public.piece USING btree (registered_at DESC, id DESC)
  CREATE INDEX piece_retired_order ON public.piece USING btree (id) WHERE (retired_at IS NOT NULL)
  CREATE INDEX piece_seen ON public.piece USING btree (seen_at, id) WHERE (retired_at IS NULL)
  CREATE INDEX piece_serial_text ON public.piece USING gin (serial gin_trgm_ops)
  CREATE INDEX piece_size_order ON public.piece USING btree (size, id)
  CREATE INDEX piece_soiled ON public.piece USING btree (id) WHERE soiled
  CREATE INDEX piece_unread ON public.piece USING btree (id) WHERE (label_reading = 'not yet read'::text)
  CREATE UNIQUE INDEX piece_serial ON public.piece USING btree (lower(maker), kind, lower(serial)) WHERE ((serial IS NOT NULL) AND (maker IS NOT NULL))
  grant layertrail_app: delete, insert, select, update

table piece_cleaned
  piece uuid not null
  n integer not null
  cleaned_at timestamp with time zone not null
  how text not null
  evidence text not null
  version integer not null
  constraint piece_cleaned_pkey: PRIMARY KEY (piece, n)
  grant layertrail_app: delete, insert, select, update

table piece_met
  piece uuid not null
  n integer not null
  event uuid not null
  met_from timestamp with time zone not null
  met_to timestamp with time zone not null
  evidence text not null
  version integer not null
  constraint piece_met_check: CHECK ((met_to >= met_from))
  constraint piece_met_pkey: PRIMARY KEY (piece, n)
  CREATE UNIQUE INDEX piece_met_event ON public.piece_met USING btree (event, piece)
  grant layertrail_app: delete, insert, select, update

table pin_tries
  account uuid not null
  device uuid not null
  failed_tries integer not null
  locked_until timestamp with time zone
  constraint pin_tries_device_fkey: FOREIGN KEY (device) REFERENCES bench_device(id) ON DELETE CASCADE
  constraint pin_tries_pkey: PRIMARY KEY (account, device)
  grant layertrail_app: delete, insert, select, update

table place
  id uuid not null
  name text not null
  what text not null
  carries text not null
  side text
  within uuid
  number text
  closed boolean not null
  version integer not null
  constraint place_carries_check: CHECK ((carries = ANY (ARRAY['closed'::text, 'shared'::text, 'apart'::text])))
  constraint place_pkey: PRIMARY KEY (id)
  constraint place_side_check: CHECK ((side = ANY (ARRAY['soiled'::text, 'clean'::text])))
  CREATE INDEX place_within ON public.place USING btree (within) WHERE (within IS NOT NULL)
  CREATE UNIQUE INDEX place_name ON public.place USING btree (lower(name)) WHERE (NOT closed)
  grant layertrail_app: delete, insert, select, update

table place_cleaned
  place uuid not null
  n integer not null
  cleaned_at timestamp with time zone not null
  constraint place_cleaned_pkey: PRIMARY KEY (place, n)
  grant layertrail_app: delete, insert, select, update

table print_file
  run uuid not null
  n integer not null
  label_count integer not null
  bytes bytea not null
  made_at timestamp with time zone not null default clock_timestamp()
  constraint print_file_n_check: CHECK ((n >= 1))
  constraint print_file_pkey: PRIMARY KEY (run, n)
  constraint print_file_run_fkey: FOREIGN KEY (run) REFERENCES print_run(id) ON DELETE CASCADE
  grant layertrail_app: delete, insert, select, update

table print_run
  id uuid not null
  made_at timestamp with time zone not null default clock_timestamp()
  by uuid not null
  stock text not null
  dpi integer not null
  label_count integer not null
  what text not null default 'tags'::text
  media jsonb not null default '{}'::jsonb
  words text not null default 'all'::text
  numbers text[] not null default '{}'::text[]
  constraint print_run_pkey: PRIMARY KEY (id)
  constraint print_run_what_check: CHECK ((what = ANY (ARRAY['tags'::text, 'cards'::text])))
  CREATE INDEX print_run_made ON public.print_run USING btree (made_at DESC)
  grant layertrail_app: delete, insert, select, update

table programme
  id uuid not null
  machine uuid not null
  name text not null
  how text
  temperature integer
  temperature_scale text
  detergent_ph_tenths integer
  extraction_rpm integer
  minutes integer
  usual boolean not null
  ended boolean not null
  constraint programme_pkey: PRIMARY KEY (id)
  constraint programme_temperature_scale_check: CHECK ((temperature_scale = ANY (ARRAY['F'::text, 'C'::text])))
  CREATE INDEX programme_machine ON public.programme USING btree (machine)
  grant layertrail_app: delete, insert, select, update

table provider
  id uuid not null
  name text not null
  verified_until date
  closed boolean not null
  version integer not null
  verified_by text
  constraint provider_pkey: PRIMARY KEY (id)
  grant layertrail_app: delete, insert, select, update

table scan
  id bigint not null identity
  at timestamp with time zone not null default clock_timestamp()
  by uuid not null
  device text not null
  via text not null
  mode text not null
  text text not null
  names text
  subject uuid
  act uuid
  answer text[] not null default '{}'::text[]
  constraint scan_pkey: PRIMARY KEY (id)
  constraint scan_text_check: CHECK ((length(text) <= 400))
  constraint scan_via_check: CHECK ((via = ANY (ARRAY['wedge'::text, 'camera'::text, 'typed'::text])))
  CREATE INDEX scan_subject ON public.scan USING btree (subject, at DESC)
  grant layertrail_app: insert, select

table session
  token_hash bytea not null
  account uuid not null
  device text not null
  strength text not null
  started_at timestamp with time zone not null
  seen_at timestamp with time zone not null
  expires_at timestamp with time zone not null
  ended_at timestamp with time zone
  constraint session_pkey: PRIMARY KEY (token_hash)
  constraint session_strength_check: CHECK ((strength = ANY (ARRAY['full'::text, 'badge'::text])))
  constraint session_token_hash_check: CHECK ((length(token_hash) = 32))
  CREATE INDEX session_account ON public.session USING btree (account) WHERE (ended_at IS NULL)
  grant layertrail_app: delete, insert, select, update

table setting
  name text not null
  policy uuid not null
  value jsonb not null
  version integer not null
  constraint setting_pkey: PRIMARY KEY (name)
  grant layertrail_app: delete, insert, select, update

table stay
  piece uuid not null
  n integer not null
  holder_kind text not null
  holder uuid
  from_at timestamp with time zone not null
  to_at timestamp with time zone
  evidence text not null
  from_version integer not null
  to_version integer
  load uuid
  constraint stay_check: CHECK ((to_at >= from_at))
  constraint stay_one_holder: EXCLUDE USING gist (piece WITH =, tstzrange(from_at, to_at) WITH &&)
  constraint stay_pkey: PRIMARY KEY (piece, n)
  CREATE INDEX stay_holder ON public.stay USING btree (holder, from_at) WHERE (holder IS NOT NULL)
  CREATE INDEX stay_load ON public.stay USING btree (load) WHERE (load IS NOT NULL)
  CREATE INDEX stay_with_holder ON public.stay USING gist (holder, tstzrange(from_at, to_at, '[]'::text)) WHERE (holder IS NOT NULL)
  CREATE UNIQUE INDEX stay_open ON public.stay USING btree (piece) WHERE (to_at IS NULL)
  grant layertrail_app: delete, insert, select, update

table tag
  id uuid not null
  number text not null
  state text not null
  piece uuid
  meant_for uuid
  position text
  run uuid
  attached_at timestamp with time zone
  superseded_by text
  version integer not null
  constraint tag_number_key: UNIQUE (number)
  constraint tag_pkey: PRIMARY KEY (id)
  constraint tag_position: EXCLUDE USING btree (piece WITH =, "position" WITH =) WHERE ((state = 'attached'::text)) DEFERRABLE INITIALLY DEFERRED
  constraint tag_state_check: CHECK ((state = ANY (ARRAY['reserved'::text, 'printed'::text, 'attached'::text, 'superseded'::text, 'lost'::text, 'destroyed'::text, 'void'::text])))
  CREATE INDEX tag_number_text ON public.tag USING gin (number gin_trgm_ops)
  CREATE INDEX tag_piece ON public.tag USING btree (piece) WHERE (piece IS NOT NULL)
  CREATE INDEX tag_run ON public.tag USING btree (run) WHERE (run IS NOT NULL)
  grant layertrail_app: delete, insert, select, update

table trace
  id uuid not null
  name text not null
  direction text not null
  is_drill boolean not null
  read_position bigint not null
  kept_at timestamp with time zone not null
  kept_by uuid not null
  contacts integer not null
  facts jsonb not null
  closed_at timestamp with time zone
  version integer not null
  constraint trace_direction_check: CHECK ((direction = ANY (ARRAY['forward'::text, 'backward'::text])))
  constraint trace_pkey: PRIMARY KEY (id)
  CREATE INDEX trace_kept ON public.trace USING btree (kept_at DESC, id DESC)
  grant layertrail_app: delete, insert, select, update

table trace_outcome
  trace uuid not null
  piece uuid not null
  outcome text not null
  outcome_at timestamp with time zone not null
  outcome_by uuid not null
  evidence text not null
  version integer not null
  constraint trace_outcome_outcome_check: CHECK ((outcome = ANY (ARRAY['found'::text, 'isolated'::text, 'sent to wash'::text, 'cleared'::text, 'retired'::text, 'not found'::text])))
  constraint trace_outcome_pkey: PRIMARY KEY (trace, piece)
  CREATE INDEX trace_outcome_piece ON public.trace_outcome USING btree (piece)
  grant layertrail_app: delete, insert, select, update

table viewing
  id bigint not null identity
  at timestamp with time zone not null default clock_timestamp()
  member uuid not null
  by uuid not null
  event uuid
  constraint viewing_pkey: PRIMARY KEY (id)
  CREATE INDEX viewing_event ON public.viewing USING btree (event, at DESC) WHERE (event IS NOT NULL)
  CREATE INDEX viewing_member ON public.viewing USING btree (member, at DESC)
  grant layertrail_app: insert, select
