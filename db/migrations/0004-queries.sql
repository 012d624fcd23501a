-- What look-up, search and the pages of places and members ask for.

-- Labels that an inspector compared by eye, one row a comparison; computed from the layer's entries.
create table by_eye (
  layer uuid not null,
  n integer not null,
  shell uuid not null,
  compared_by uuid not null,
  compared_at timestamptz not null,
  primary key (layer, n)
);
create index by_eye_shell on by_eye (shell);
grant select, insert, update, delete on by_eye to layertrail_app;

-- When somebody last had the piece before the scanner or in hand, by the ledger; scans that wrote nothing are in scan.
alter table piece add column seen_at timestamptz;

-- Search goes on after the last id shown, in every narrowing: each is an equality and then the id.
create index piece_kind_order on piece (kind, id);
create index piece_holder_order on piece (holder, id) where holder is not null;
create index piece_holder_kind_order on piece (holder_kind, id);
create index piece_model_order on piece (lower(model_name), id);
create index piece_size_order on piece (size, id);
create index piece_retired_order on piece (id) where retired_at is not null;
create index piece_seen on piece (seen_at, id) where retired_at is null;
create index member_number_text on member using gin (number gin_trgm_ops);
create index place_within on place (within) where within is not null;

-- Trails of shells and pages of holders tell also what a correction took away since.
create index hold_with_piece on hold (with_piece) where with_piece is not null;
create index entry_corrected on entry (subject, version) where kind = 'EntryCorrected';
