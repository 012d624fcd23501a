import { type ChildProcess, spawn, spawnSync } from "node:child_process";
import fs from "node:fs";
import path from "node:path";
import type { Binaries } from "./embedded-binaries.ts";
import {
  type ClusterPaths,
  clusterView,
  databaseEnvironment,
  SOCKET_DIR_PREFIX,
} from "./embedded-cluster.ts";
import type { RunAs } from "./embedded-user.ts";
import { isPostmasterOf, pause } from "./process-identity.ts";
import { StartTrouble, troubleFromSystemText } from "./start-trouble.ts";

/** Where the running server listens: a socket folder, or loopback on Windows; the port names the socket too. */
export interface Listening {
  readonly host: string;
  readonly port: number;
}

/** A running PostgreSQL server, whether we started it or found it running. */
export interface Postmaster {
  readonly pid: number;
  readonly listening: Listening;
  /** The child, when we are its parent. */
  readonly child: ChildProcess | undefined;
}

export interface PostmasterPlan {
  readonly paths: ClusterPaths;
  readonly binaries: Binaries;
  readonly runAs: RunAs | undefined;
  readonly listening: Listening;
  readonly settings: Readonly<Record<string, string>>;
}

const START_TIMEOUT_MS = 60_000;
const LOG_LIMIT_BYTES = 20_000_000;

/** What the ledger relies on, given on the command line so that no file or ALTER SYSTEM can weaken it. */
const SAFE_SETTINGS: Readonly<Record<string, string>> = {
  fsync: "on",
  full_page_writes: "on",
  synchronous_commit: "on",
};

const PLAIN_SETTINGS: Readonly<Record<string, string>> = {
  max_connections: "100",
  shared_buffers: "256MB",
  work_mem: "16MB",
  maintenance_work_mem: "128MB",
  max_wal_size: "2GB",
  random_page_cost: "1.1",
  jit: "off",
  timezone: "UTC",
  log_timezone: "UTC",
  log_checkpoints: "off",
  // Statements carry names and free text, which do not belong in a log file.
  log_min_error_statement: "panic",
  log_error_verbosity: "terse",
};

/** Finds a server that already runs on this cluster; clears what one left that does not run any more. */
export function findPostmaster(paths: ClusterPaths): Postmaster | undefined {
  const file = path.join(paths.cluster, "postmaster.pid");
  const lines = readPidFile(file);
  if (!lines) return undefined;
  const pid = Number(lines[0]);
  const socketDir = lines[4] ?? "";
  if (!isPostmasterOf(pid, paths.cluster)) {
    fs.rmSync(file, { force: true });
    if (path.basename(socketDir).startsWith(SOCKET_DIR_PREFIX)) {
      fs.rmSync(socketDir, { recursive: true, force: true });
    }
    return undefined;
  }
  return {
    pid,
    listening: { host: socketDir === "" ? "127.0.0.1" : socketDir, port: Number(lines[3]) },
    child: undefined,
  };
}

function readPidFile(file: string): readonly string[] | undefined {
  try {
    return fs
      .readFileSync(file, "utf8")
      .split("\n")
      .map((line) => line.trim());
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "ENOENT") return undefined;
    throw error;
  }
}

/** Tells whether the server says of itself that it takes connections. */
export function isReady(paths: ClusterPaths): boolean {
  return readPidFile(path.join(paths.cluster, "postmaster.pid"))?.[7] === "ready";
}

/** Starts the server detached, so that Ctrl-C in the terminal reaches us first, and waits until it is ready. */
export async function startPostmaster(plan: PostmasterPlan): Promise<Postmaster> {
  const { paths } = plan;
  trimLog(paths.log);
  prepareSocketDir(plan.listening, plan.runAs);
  const logStart = fs.statSync(paths.log, { throwIfNoEntry: false })?.size ?? 0;
  const child = process.platform === "win32" ? startOnWindows(plan) : spawnServer(plan);
  let exited = false;
  child?.once("exit", () => {
    exited = true;
  });
  child?.once("error", () => {
    exited = true;
  });
  for (const deadline = Date.now() + START_TIMEOUT_MS; Date.now() < deadline; await pause(15)) {
    if (exited) break;
    if (!isReady(paths)) continue;
    const found = findPostmaster(paths);
    if (found && (!child || found.pid === child.pid)) return { ...found, child };
  }
  child?.kill("SIGQUIT");
  throw startTrouble(paths, logStart);
}

function spawnServer(plan: PostmasterPlan): ChildProcess {
  const view = clusterView(plan.paths.cluster, plan.runAs);
  const log = fs.openSync(plan.paths.log, "a", 0o600);
  try {
    const child = spawn(plan.binaries.postgres, ["-D", view.argument, ...settingOptions(plan)], {
      cwd: view.cwd,
      env: databaseEnvironment(),
      stdio: ["ignore", log, log],
      detached: true,
      ...plan.runAs,
    });
    child.unref();
    return child;
  } finally {
    fs.closeSync(log);
  }
}

/** pg_ctl gives up administrator rights, which PostgreSQL refuses to run with. */
function startOnWindows(plan: PostmasterPlan): undefined {
  const options = settingOptions(plan)
    .map((option) => `"${option}"`)
    .join(" ");
  const start = ["start", "-D", plan.paths.cluster, "-l", plan.paths.log, "-W", "-o", options];
  spawnSync(plan.binaries.pgCtl, start, { env: databaseEnvironment(), stdio: "ignore" });
  return undefined;
}

function settingOptions(plan: PostmasterPlan): readonly string[] {
  const isLoopback = plan.listening.host === "127.0.0.1";
  const settings: Record<string, string> = {
    ...PLAIN_SETTINGS,
    ...SAFE_SETTINGS,
    ...plan.settings,
    listen_addresses: isLoopback ? "127.0.0.1" : "",
    unix_socket_directories: isLoopback ? "" : plan.listening.host,
    unix_socket_permissions: "0700",
    port: String(plan.listening.port),
  };
  return Object.entries(settings).flatMap(([name, value]) => ["-c", `${name}=${value}`]);
}

/**
 * The socket and its lock file outlive a killed server, and their pid may be another process by now;
 * the folder itself may have been swept away with other temporary files.
 */
function prepareSocketDir(listening: Listening, runAs: RunAs | undefined): void {
  if (listening.host === "127.0.0.1") return;
  if (!fs.existsSync(listening.host)) {
    fs.mkdirSync(listening.host, { mode: 0o700 });
    if (runAs) fs.chownSync(listening.host, runAs.uid, runAs.gid);
  }
  const socket = path.join(listening.host, `.s.PGSQL.${listening.port}`);
  for (const file of [socket, `${socket}.lock`]) fs.rmSync(file, { force: true });
}

function trimLog(log: string): void {
  const size = fs.statSync(log, { throwIfNoEntry: false })?.size ?? 0;
  if (size > LOG_LIMIT_BYTES) fs.renameSync(log, `${log}.1`);
}

function startTrouble(paths: ClusterPaths, logStart: number): StartTrouble {
  const said = fs.existsSync(paths.log) ? fs.readFileSync(paths.log).subarray(logStart).toString("utf8") : "";
  const named = troubleFromSystemText(said, paths.dataDir);
  if (named) return named;
  const line = /(?:FATAL|PANIC|postgres): +(.*)$/m.exec(said)?.[1] ?? "it gave no reason";
  return new StartTrouble(
    "database-refused",
    `The database in ${paths.cluster} did not start: ${line}. More is in ${paths.log}.`,
  );
}

/** Stops the server: first as PostgreSQL's fast shutdown, and at once when that takes longer than it may. */
export async function stopPostmaster(
  postmaster: Postmaster,
  paths: ClusterPaths,
  binaries: Binaries,
  patienceMs: number,
): Promise<void> {
  if (process.platform === "win32") {
    spawnSync(binaries.pgCtl, ["stop", "-D", paths.cluster, "-m", "fast"], { env: databaseEnvironment() });
    return;
  }
  for (const signal of ["SIGINT", "SIGQUIT", "SIGKILL"] as const) {
    if (!isPostmasterOf(postmaster.pid, paths.cluster)) return;
    process.kill(postmaster.pid, signal);
    const deadline = Date.now() + (signal === "SIGINT" ? patienceMs : 5_000);
    while (Date.now() < deadline && isPostmasterOf(postmaster.pid, paths.cluster)) await pause(10);
  }
}
