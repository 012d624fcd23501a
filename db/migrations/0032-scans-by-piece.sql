-- The last scan of a piece is always sought by the piece. With an index by time alone a plan may walk all scans back
-- to the one of a piece that was never scanned before, which grows with every scan of the others.
drop index scan_at;
