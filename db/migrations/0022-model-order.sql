-- Pieces of one row of the model table, in the order in which search goes on.
create index piece_model_row_order on piece (model, id) where model is not null;
