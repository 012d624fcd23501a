-- Pieces whose label nobody has read yet are looked for so that somebody reads them; soon they are few among many.
create index piece_unread on piece (id) where label_reading = 'not yet read';
