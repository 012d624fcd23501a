-- Since when a piece is soiled, so that the clean side can say: this came in 40 minutes ago and has no load.
alter table piece add column soiled_since timestamptz;
update piece set soiled_since = (
  select to_timestamp(max((convert_from(e.bytes, 'UTF8')::jsonb ->> 'at')::bigint) / 1000.0)
  from entry e
  where e.subject = piece.id and e.kind = 'PieceMoved' and convert_from(e.bytes, 'UTF8')::jsonb ->> 'soiled' = 'true'
    and not exists (select from entry c where c.subject = e.subject and c.kind = 'EntryCorrected'
      and (convert_from(c.bytes, 'UTF8')::jsonb ->> 'corrects')::int = e.version))
  where soiled;

-- What came out of a washer last is what a dryer takes next.
create index load_ended on load (ended_at) where ended_at is not null;
