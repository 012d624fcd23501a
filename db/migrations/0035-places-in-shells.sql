-- Two layers of one kind are never in one shell at once, over all times and not only now: a late record may reach into a
-- time in which another layer was there. The domain says so with every reason; this holds it against races. A time
-- without length is empty and meets nothing.
alter table fitting add constraint fitting_one_in_its_place exclude using gist
  (shell with =, layer_kind with =, tstzrange(from_at, to_at) with &&);
