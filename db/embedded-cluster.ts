import { type SpawnSyncReturns, spawnSync } from "node:child_process";
import crypto from "node:crypto";
import fs from "node:fs";
import os from "node:os";
import path from "node:path";
import type { Binaries } from "./embedded-binaries.ts";
import type { RunAs } from "./embedded-user.ts";
import { StartTrouble, troubleFromSystemText } from "./start-trouble.ts";

const POSTGRESQL_MAJOR = "18";

/** Where one embedded database keeps its things; all of it lies in the data folder. */
export interface ClusterPaths {
  readonly dataDir: string;
  readonly cluster: string;
  readonly ownerFile: string;
  readonly log: string;
  /** The password of the superuser where the database must listen on loopback (Windows). */
  readonly secret: string;
}

export function clusterPaths(dataDir: string): ClusterPaths {
  const at = (name: string) => path.join(dataDir, name);
  return {
    dataDir,
    cluster: at("database"),
    ownerFile: at("owner.json"),
    log: at("database.log"),
    secret: at("database-secret"),
  };
}

/** Where a program must be started, and what it must call the cluster, to reach it as the unprivileged user. */
export interface ClusterView {
  readonly cwd: string;
  readonly argument: string;
}

/**
 * On Linux the program is started inside the cluster folder and calls it /proc/self/cwd, so that it works below
 * a home folder that the unprivileged user may not enter (root's own, on most systems).
 */
export function clusterView(cluster: string, runAs: RunAs | undefined): ClusterView {
  return runAs && process.platform === "linux"
    ? { cwd: cluster, argument: "/proc/self/cwd" }
    : { cwd: cluster, argument: cluster };
}

/** The environment of the database programs: the caller's locale and PG… settings must not reach them. */
export function databaseEnvironment(): NodeJS.ProcessEnv {
  const kept = ["PATH", "TMPDIR", "TEMP", "TMP", "SystemRoot", "SYSTEMROOT"];
  const environment: NodeJS.ProcessEnv = { LC_ALL: "C" };
  for (const name of kept) if (process.env[name] !== undefined) environment[name] = process.env[name];
  return environment;
}

/** Makes the data folder, and the cluster in it unless there is one. An interrupted attempt leaves no half cluster. */
export function ensureCluster(paths: ClusterPaths, binaries: Binaries, runAs: RunAs | undefined): void {
  const versionFile = path.join(paths.cluster, "PG_VERSION");
  if (fs.existsSync(versionFile)) {
    const version = fs.readFileSync(versionFile, "utf8").trim();
    if (version === POSTGRESQL_MAJOR) return;
    throw new StartTrouble(
      "wrong-database-version",
      `The database in ${paths.cluster} was made by PostgreSQL ${version}; this Layertrail runs PostgreSQL ${POSTGRESQL_MAJOR}. Restore a backup into an empty data folder.`,
    );
  }
  const unfinished = `${paths.cluster}.unfinished`;
  fs.rmSync(unfinished, { recursive: true, force: true });
  fs.mkdirSync(unfinished, { mode: 0o700 });
  try {
    if (runAs) fs.chownSync(unfinished, runAs.uid, runAs.gid);
    runInitdb(unfinished, paths, binaries, runAs);
    fs.renameSync(unfinished, paths.cluster);
  } catch (error) {
    fs.rmSync(unfinished, { recursive: true, force: true });
    throw error;
  }
}

function runInitdb(cluster: string, paths: ClusterPaths, binaries: Binaries, runAs: RunAs | undefined): void {
  const view = clusterView(cluster, runAs);
  const options = [
    `--pgdata=${view.argument}`,
    "--username=postgres",
    "--encoding=UTF8",
    "--locale-provider=builtin",
    "--builtin-locale=C.UTF-8",
    "--data-checksums",
    "--no-instructions",
    ...authOptions(paths),
  ];
  const run = spawnSync(binaries.initdb, options, {
    cwd: view.cwd,
    env: databaseEnvironment(),
    encoding: "utf8",
    ...runAs,
  });
  if (run.status === 0) return;
  throw initdbTrouble(run, paths);
}

/** On a socket in a 0700 folder the file system says who may connect; on loopback a password must. */
function authOptions(paths: ClusterPaths): readonly string[] {
  if (process.platform !== "win32") return ["--auth-local=trust", "--auth-host=reject"];
  fs.writeFileSync(paths.secret, crypto.randomBytes(32).toString("base64url"), { mode: 0o600 });
  return ["--auth=scram-sha-256", `--pwfile=${paths.secret}`];
}

function initdbTrouble(run: SpawnSyncReturns<string>, paths: ClusterPaths): StartTrouble {
  const said = `${run.error?.message ?? ""}\n${run.stdout ?? ""}\n${run.stderr ?? ""}`;
  const named = troubleFromSystemText(said, paths.dataDir);
  if (named) return named;
  const line = /^initdb: error: .*$/m.exec(said)?.[0] ?? said.trim().split("\n").at(-1) ?? "";
  return new StartTrouble("database-refused", `The database could not be made in ${paths.cluster}: ${line}`);
}

/** How the name of a socket folder begins, by which one is known that a killed server left behind. */
export const SOCKET_DIR_PREFIX = "lt-";

/** Makes a new 0700 folder for the socket. Its path stays far below the 103 bytes that a socket path may have. */
export function makeSocketDir(runAs: RunAs | undefined): string {
  const longest = 60;
  const parent = os.tmpdir().length <= longest ? os.tmpdir() : "/tmp";
  const dir = fs.mkdtempSync(path.join(parent, SOCKET_DIR_PREFIX));
  if (runAs) fs.chownSync(dir, runAs.uid, runAs.gid);
  return dir;
}
