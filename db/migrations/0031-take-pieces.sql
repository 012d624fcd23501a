-- An act at the bench locks the rules and its pieces in one round trip, where it took three: each costs both sides some
-- 0.2 ms, most of it in waking the other. A function of the database can do it, because each of its statements sees
-- what was committed when it began, and so what was done while the one before waited for a lock.

-- Shares the rules, then locks pieces in the order of their ids with all that is fitted in or around them at a moment:
-- the layers in each shell, and the shell that each layer is in. Looks again under the locks until nothing is new,
-- since another bench may put something in between a look and a lock. Gives what it took.
-- Planned once for any number of ids; planning for each number costs more than it gains.
create function take_pieces(asked uuid[], moment timestamptz) returns uuid[]
language plpgsql set plan_cache_mode = force_generic_plan as $$
declare
  taken uuid[] := '{}';
  wanted uuid[];
begin
  perform pg_advisory_xact_lock_shared(7001);
  loop
    wanted := array(
      select id from unnest(asked) id
      union
      select unnest(array[layer, shell]) from fitting
        where shell = any (asked) and from_at <= moment and (to_at is null or to_at > moment)
      union
      select unnest(array[layer, shell]) from fitting
        where layer = any (asked) and from_at <= moment and (to_at is null or to_at > moment)
      except
      select id from unnest(taken) id
      order by 1);
    exit when wanted = '{}';
    perform from piece where id = any (wanted) order by id for update;
    taken := taken || wanted;
  end loop;
  return taken;
end $$;
