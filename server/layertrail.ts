import { checkDatabase } from "../db/check-database.ts";
import { kyselyOn, openPool } from "../db/connect.ts";
import { startEmbedded } from "../db/embedded.ts";
import { migrate, pendingMigrations } from "../db/migrate.ts";
import { findRunning, hasCluster } from "../db/running-embedded.ts";
import { StartTrouble, troubleFromSystemText } from "../db/start-trouble.ts";
import { EXIT, type House, type OpenHouse } from "./cli/command.ts";
import { progressBar } from "./cli/progress-bar.ts";
import { runCommandLine } from "./cli/run-command-line.ts";
import { type Config, parseConfig } from "./config.ts";
import { openDatabase } from "./open-database.ts";
import { printedAddresses } from "./own-addresses.ts";
import { runningAddress } from "./running-address.ts";

/** A database that is reached, before a pool is opened on it. */
interface Reached {
  readonly appUrl: string;
  readonly landed: readonly string[];
  readonly close: () => Promise<void>;
}

async function reach(config: Config, mayBeNew: boolean): Promise<Reached> {
  if (config.databaseUrl !== undefined) return reachOwn(config);
  const running = await findRunning(config.dataDir);
  if (running) return joinRunning(running.appUrl);
  if (!mayBeNew && !hasCluster(config.dataDir)) {
    throw new StartTrouble(
      "no-database",
      `There is no database in ${config.dataDir}. Start Layertrail once, or set DATA_DIR to the folder that it uses.`,
    );
  }
  const database = await startEmbedded({ dataDir: config.dataDir });
  stopOnSignal(database.stop);
  try {
    const landed = await migrate(database.ownerUrl);
    await checkDatabase(database.appUrl);
    return { appUrl: database.appUrl, landed, close: database.stop };
  } catch (error) {
    await database.stop();
    throw error;
  }
}

/** A database of the department's own, which runs by itself. */
async function reachOwn(config: Config): Promise<Reached> {
  const landed = config.migrateDatabaseUrl === undefined ? [] : await migrate(config.migrateDatabaseUrl);
  const { appUrl, close } = await openDatabase(config);
  return { appUrl, landed, close };
}

/** A server that runs has brought the schema to where its own build needs it; a newer build must not move it under it. */
async function joinRunning(appUrl: string): Promise<Reached> {
  const pending = await pendingMigrations(appUrl);
  if (pending.length > 0) {
    throw new StartTrouble(
      "migration-refused",
      `The server that runs is of an older build, whose database lacks ${pending.join(", ")}. Restart it first.`,
    );
  }
  return { appUrl, landed: [], close: async () => {} };
}

/** The database that was started for this command is stopped with it. */
function stopOnSignal(stop: () => Promise<void>): void {
  for (const [signal, number] of [
    ["SIGINT", 2],
    ["SIGTERM", 15],
    ["SIGHUP", 1],
  ] as const) {
    process.once(signal, () => {
      stop().finally(() => process.exit(128 + number));
    });
  }
}

async function open(config: Config, mayBeNew: boolean): Promise<OpenHouse> {
  const { appUrl, landed, close } = await reach(config, mayBeNew);
  const db = kyselyOn(openPool(appUrl, { max: 4, applicationName: "layertrail command" }));
  return {
    db,
    landed,
    close: async () => {
      await db.destroy();
      await close();
    },
  };
}

/** Names the trouble in one line where it is one that a person can do something about. */
function asTrouble(error: unknown): string | undefined {
  if (error instanceof StartTrouble) return error.message;
  const { code, message } = error as { code?: unknown; message?: unknown };
  const said = `${String(code)} ${String(message)}`;
  const system = troubleFromSystemText(said, "the file or the database");
  if (system) return system.message;
  const isGone =
    /^(ECONN|ENOTFOUND|ETIMEDOUT|57P0|08|53)/.test(said) || /Connection terminated|timeout/.test(said);
  return isGone ? `The database could not be reached: ${String(message)}.` : undefined;
}

/** Where people open Layertrail: at the server that runs, on whatever port it got; else where the settings put it. */
function addressOf(config: Config): string | undefined {
  const running = config.databaseUrl === undefined ? runningAddress(config.dataDir) : undefined;
  if (running !== undefined) return running;
  // Which port any free one will be, nobody knows before the server runs.
  const isKnown = config.port !== 0 || config.publicOrigin !== undefined;
  return isKnown ? printedAddresses(config, config.port, true).at(-1) : undefined;
}

async function main(): Promise<number> {
  const bar = progressBar(process.stderr);
  const write = (stream: NodeJS.WriteStream) => (line: string) => {
    bar.end();
    stream.write(`${line}\n`);
  };
  const voices = { out: write(process.stdout), err: write(process.stderr) };
  try {
    const config = parseConfig(process.env);
    const house: House = {
      open: ({ mayBeNew }) => open(config, mayBeNew),
      progress: bar.show,
      now: Date.now,
      address: addressOf(config),
    };
    return await runCommandLine(process.argv.slice(2), house, voices, asTrouble);
  } catch (error) {
    const line = asTrouble(error);
    if (line === undefined) throw error;
    voices.err(line);
    return EXIT.trouble;
  }
}

process.exitCode = await main();
