import fs from "node:fs";
import net from "node:net";
import path from "node:path";
import { type Binaries, prepareBinaries } from "./embedded-binaries.ts";
import { type ClusterPaths, clusterPaths, ensureCluster, makeSocketDir } from "./embedded-cluster.ts";
import { claimFolder, type OwnerClaim } from "./embedded-owner-file.ts";
import {
  findPostmaster,
  isReady,
  type Listening,
  type Postmaster,
  startPostmaster,
  stopPostmaster,
} from "./embedded-postmaster.ts";
import { ensureRoles, type RoleAddresses, roleAddresses } from "./embedded-roles.ts";
import { chooseRunAs, type RunAs } from "./embedded-user.ts";
import { isPostmasterOf, pause } from "./process-identity.ts";
import { troubleFromSystemText } from "./start-trouble.ts";

export interface EmbeddedOptions {
  /** The folder that holds the database; made when it is not there. */
  readonly dataDir: string;
  /** Server settings that a test run changes. The product passes none. */
  readonly settings?: Readonly<Record<string, string>>;
}

/** The PostgreSQL server that Layertrail brings along, running for this process alone. */
export interface EmbeddedDatabase extends RoleAddresses {
  /** The process id of the database server as it is now. */
  readonly pid: () => number;
  /** False from the moment the server is found dead until it takes connections again. */
  readonly isUp: () => boolean;
  /** Says each time the server went down or came up again. */
  readonly watch: (listener: (state: "down" | "up") => void) => void;
  /** Stops the server and gives the data folder back. Call it after the last query. */
  readonly stop: () => Promise<void>;
}

const STOP_PATIENCE_MS = 30_000;
const WATCH_EVERY_MS = 200;
const RESTART_PAUSES_MS = [0, 100, 250, 500, 1_000, 2_000];

/** Starts the database of a data folder, or takes over the one that a killed Layertrail left running there. */
export async function startEmbedded(options: EmbeddedOptions): Promise<EmbeddedDatabase> {
  const dataDir = path.resolve(options.dataDir);
  const paths = clusterPaths(dataDir);
  let claim: OwnerClaim | undefined;
  try {
    fs.mkdirSync(dataDir, { recursive: true });
    claim = claimFolder(paths.ownerFile, dataDir);
    const runAs = chooseRunAs(paths.cluster);
    const binaries = prepareBinaries(runAs, dataDir);
    ensureCluster(paths, binaries, runAs);
    const keeper = new DatabaseKeeper(paths, binaries, runAs, options.settings ?? {});
    await keeper.open();
    return keeper.handle(claim);
  } catch (error) {
    claim?.release();
    const said =
      error instanceof Error ? `${(error as NodeJS.ErrnoException).code ?? ""} ${error.message}` : "";
    throw (error as { name?: string }).name === "StartTrouble"
      ? error
      : (troubleFromSystemText(said, dataDir) ?? error);
  }
}

/** Keeps one server running: starts or adopts it, sees when it dies, starts it again at the same address. */
class DatabaseKeeper {
  private postmaster: Postmaster | undefined;
  private isUp = false;
  private isStopping = false;
  private watching: Promise<void> | undefined;
  private readonly stopping = Promise.withResolvers<void>();
  private readonly listeners: ((state: "down" | "up") => void)[] = [];
  private readonly paths: ClusterPaths;
  private readonly binaries: Binaries;
  private readonly runAs: RunAs | undefined;
  private readonly settings: Readonly<Record<string, string>>;

  constructor(
    paths: ClusterPaths,
    binaries: Binaries,
    runAs: RunAs | undefined,
    settings: Readonly<Record<string, string>>,
  ) {
    this.paths = paths;
    this.binaries = binaries;
    this.runAs = runAs;
    this.settings = settings;
  }

  async open(): Promise<void> {
    this.postmaster = (await this.adopt()) ?? (await this.start(await this.chooseListening()));
    try {
      await ensureRoles(this.postmaster.listening, this.paths);
    } catch (error) {
      await this.close();
      throw error;
    }
    this.isUp = true;
    this.watching = this.keepRunning();
  }

  handle(claim: OwnerClaim): EmbeddedDatabase {
    return {
      ...roleAddresses(this.current().listening, this.paths),
      pid: () => this.current().pid,
      isUp: () => this.isUp,
      watch: (listener) => {
        this.listeners.push(listener);
      },
      stop: async () => {
        await this.close();
        claim.release();
      },
    };
  }

  private current(): Postmaster {
    if (!this.postmaster) throw new Error("The embedded database was asked for before it was opened.");
    return this.postmaster;
  }

  /** Takes over a server whose Layertrail is gone. One that has lost its socket cannot be reached and is replaced. */
  private async adopt(): Promise<Postmaster | undefined> {
    const found = findPostmaster(this.paths);
    if (!found) return undefined;
    for (const deadline = Date.now() + 30_000; Date.now() < deadline; await pause(20)) {
      if (!isPostmasterOf(found.pid, this.paths.cluster)) return undefined;
      if (isReady(this.paths)) break;
    }
    if (await answers(found.listening)) return found;
    await stopPostmaster(found, this.paths, this.binaries, STOP_PATIENCE_MS);
    return undefined;
  }

  private async chooseListening(): Promise<Listening> {
    if (process.platform === "win32") return { host: "127.0.0.1", port: await freePort() };
    return { host: makeSocketDir(this.runAs), port: 5432 };
  }

  private start(listening: Listening): Promise<Postmaster> {
    return startPostmaster({
      paths: this.paths,
      binaries: this.binaries,
      runAs: this.runAs,
      listening,
      settings: this.settings,
    });
  }

  private async keepRunning(): Promise<void> {
    while (!this.isStopping) {
      await Promise.race([pause(WATCH_EVERY_MS, { isBackground: true }), this.stopping.promise]);
      if (this.isStopping || isPostmasterOf(this.current().pid, this.paths.cluster)) continue;
      this.tell("down");
      await this.restart();
    }
  }

  /** The orphans of a killed server hold its shared memory for a moment, so the first tries may be refused. */
  private async restart(): Promise<void> {
    for (let attempt = 0; !this.isStopping; attempt += 1) {
      await pause(RESTART_PAUSES_MS[Math.min(attempt, RESTART_PAUSES_MS.length - 1)] ?? 0);
      try {
        findPostmaster(this.paths);
        this.postmaster = await this.start(this.current().listening);
        this.tell("up");
        return;
      } catch {
        // The reason is in the database's log; the next try follows.
      }
    }
  }

  private tell(state: "down" | "up"): void {
    this.isUp = state === "up";
    for (const listener of this.listeners) listener(state);
  }

  private async close(): Promise<void> {
    this.isStopping = true;
    this.stopping.resolve();
    this.isUp = false;
    await this.watching;
    const { listening } = this.current();
    await stopPostmaster(this.current(), this.paths, this.binaries, STOP_PATIENCE_MS);
    if (process.platform !== "win32") fs.rmSync(listening.host, { recursive: true, force: true });
  }
}

function answers(listening: Listening): Promise<boolean> {
  return new Promise((resolve) => {
    const socket =
      listening.host === "127.0.0.1"
        ? net.connect(listening.port, listening.host)
        : net.connect(path.join(listening.host, `.s.PGSQL.${listening.port}`));
    socket.once("connect", () => {
      socket.destroy();
      resolve(true);
    });
    socket.once("error", () => resolve(false));
  });
}

function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const probe = net.createServer();
    probe.once("error", reject);
    probe.listen(0, "127.0.0.1", () => {
      const address = probe.address();
      probe.close(() => resolve(typeof address === "object" && address ? address.port : 0));
    });
  });
}
