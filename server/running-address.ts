import fs from "node:fs";
import path from "node:path";
import { clusterPaths } from "../db/embedded-cluster.ts";
import { findLivingOwner } from "../db/embedded-owner-file.ts";

/** Where the server that has a data folder is reached, as it wrote it down for commands that run beside it. */
interface Reached {
  readonly pid: number;
  readonly address: string;
}

const fileIn = (dataDir: string) => path.join(path.resolve(dataDir), "address.json");

/** Writes down where this server is reached, whatever port it got. Gives what takes that away when it ends. */
export function keepAddress(dataDir: string, address: string): () => void {
  const file = fileIn(dataDir);
  fs.writeFileSync(file, JSON.stringify({ pid: process.pid, address } satisfies Reached), { mode: 0o600 });
  return () => fs.rmSync(file, { force: true });
}

/** Gives where the running server of a data folder is reached. Undefined when none runs; what a killed one left does not count. */
export function runningAddress(dataDir: string): string | undefined {
  const owner = findLivingOwner(clusterPaths(path.resolve(dataDir)).ownerFile);
  const kept = owner === undefined ? undefined : readKept(fileIn(dataDir));
  return kept?.pid === owner ? kept?.address : undefined;
}

function readKept(file: string): Partial<Reached> | undefined {
  try {
    return JSON.parse(fs.readFileSync(file, "utf8")) as Partial<Reached>;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "ENOENT" || error instanceof SyntaxError) return undefined;
    throw error;
  }
}
