import fs from "node:fs";
import path from "node:path";
import { clusterPaths } from "./embedded-cluster.ts";
import { findLivingOwner } from "./embedded-owner-file.ts";
import { findPostmaster, isReady } from "./embedded-postmaster.ts";
import { type RoleAddresses, roleAddresses } from "./embedded-roles.ts";
import { pause } from "./process-identity.ts";

const STARTING_PATIENCE_MS = 30_000;

/** Tells whether a data folder holds a database. */
export function hasCluster(dataDir: string): boolean {
  return fs.existsSync(path.join(clusterPaths(path.resolve(dataDir)).cluster, "PG_VERSION"));
}

/**
 * Finds the database that another process of Layertrail runs in a data folder, and waits while it is starting.
 * Undefined when nobody runs one there: then the folder is free to be started by whoever asks.
 */
export async function findRunning(dataDir: string): Promise<RoleAddresses | undefined> {
  const paths = clusterPaths(path.resolve(dataDir));
  for (const deadline = Date.now() + STARTING_PATIENCE_MS; ; await pause(50)) {
    if (findLivingOwner(paths.ownerFile) === undefined) return undefined;
    if (isReady(paths)) {
      const found = findPostmaster(paths);
      if (found) return roleAddresses(found.listening, paths);
    }
    if (Date.now() > deadline) return undefined;
  }
}
