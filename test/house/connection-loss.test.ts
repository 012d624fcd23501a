import { expect, test } from "vitest";
import { openPool } from "../../db/connect.ts";
import { useTestDatabase } from "../kit/test-database.ts";

const database = useTestDatabase();

test("a connection that dies between two questions fails the next one and not the process, and the pool goes on", async () => {
  const pool = openPool(database.ownerUrl, { max: 2 });
  const client = await pool.connect();
  const { rows } = await client.query<{ pid: number }>("select pg_backend_pid() as pid");
  await pool.query("select pg_terminate_backend($1)", [rows[0]?.pid]);
  // Without a listener the event of the lost connection ends the process while nobody asks anything.
  await new Promise((resolve) => setTimeout(resolve, 200));
  await expect(client.query("select 1")).rejects.toThrow();
  client.release();
  expect((await pool.query("select 1 as one")).rows).toEqual([{ one: 1 }]);
  await pool.end();
});
