-- Who verified a provider stands beside until when, and an outside party can be closed as a provider can: the lists that
-- people choose from are then those in use. Rows that are there already say what their entries say: nobody, and open.
alter table provider add column verified_by text;
alter table outside add column closed boolean not null default false;
