import os from "node:os";
import { sql } from "kysely";
import type { BenchHouse } from "./bench-house.ts";

/** Says on what machine the figures came about. A load of others' work is said too: it makes every figure worse. */
export async function sayMachine({ app }: BenchHouse): Promise<string[]> {
  const { rows } = await sql<{
    version: string;
    sync: string;
  }>`select current_setting('server_version') as version,
    current_setting('fsync') || ', synchronous_commit ' || current_setting('synchronous_commit') as sync`.execute(
    app,
  );
  const [found] = rows;
  const cores = os.cpus();
  return [
    `${cores.length} cores (${cores[0]?.model.trim() ?? "unknown"}), ${Math.round(os.totalmem() / 2 ** 30)} GiB of memory, ${os.type()} ${os.release()}`,
    `Node ${process.versions.node}, PostgreSQL ${found?.version} (fsync ${found?.sync})`,
    saidLoad(),
  ];
}

/** Says how many processes want to run: more than there are cores when the machine has other work too. */
export function saidLoad(): string {
  const [oneMinute = 0] = os.loadavg();
  return `load average over the last minute ${oneMinute.toFixed(1)} on ${os.cpus().length} cores`;
}
