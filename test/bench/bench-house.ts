import { type ChildProcess, fork, spawn } from "node:child_process";
import { once } from "node:events";
import fs from "node:fs";
import os from "node:os";
import path from "node:path";
import { fileURLToPath } from "node:url";
import type { Kysely } from "kysely";
import { checkDatabase } from "../../db/check-database.ts";
import { kyselyOn, openPool } from "../../db/connect.ts";
import { type EmbeddedDatabase, startEmbedded } from "../../db/embedded.ts";
import { migrate } from "../../db/migrate.ts";
import type { Database } from "../../db/schema/database.ts";
import { startSession } from "../../server/cases/sessions.ts";
import { sessionCookieName } from "../../server/http/session-cookie.ts";
import { type GeneratedRegister, generateRegister } from "../kit/generate-register.ts";

export const ROOT = path.resolve(fileURLToPath(import.meta.url), "../../..");

/** A data folder with a generated department in it, its database stopped. */
export interface BenchFolder {
  readonly dataDir: string;
  readonly register: GeneratedRegister;
}

/** The running product on a generated department, in processes of their own, and our own ways to its database. */
export interface BenchHouse extends BenchFolder {
  readonly address: string;
  /** Signs in a technician. */
  readonly cookie: string;
  readonly appUrl: string;
  readonly app: Kysely<Database>;
  readonly owner: Kysely<Database>;
  readonly close: () => Promise<void>;
}

/** Finds the department that an earlier run left in a folder, or makes one of so many sets, there or in a new folder. */
export async function findFolder(sets: number, kept?: string): Promise<BenchFolder> {
  const dataDir = kept ?? fs.mkdtempSync(path.join(os.tmpdir(), "layertrail-bench-"));
  const note = path.join(dataDir, "department.json");
  if (fs.existsSync(note)) {
    await onDatabase(dataDir, ({ ownerUrl }) => migrate(ownerUrl));
    return { dataDir, register: JSON.parse(fs.readFileSync(note, "utf8")) };
  }
  const folder = await makeFolder(sets, dataDir);
  fs.writeFileSync(note, JSON.stringify(folder.register));
  return folder;
}

async function makeFolder(sets: number, dataDir: string): Promise<BenchFolder> {
  try {
    return await onDatabase(dataDir, async ({ ownerUrl }) => {
      await migrate(ownerUrl);
      const owner = kyselyOn(openPool(ownerUrl, { max: 2 }));
      try {
        return { dataDir, register: await generateRegister(owner, sets) };
      } finally {
        await owner.destroy();
      }
    });
  } catch (error) {
    fs.rmSync(dataDir, { recursive: true, force: true });
    throw error;
  }
}

async function onDatabase<Result>(
  dataDir: string,
  work: (database: EmbeddedDatabase) => Promise<Result>,
): Promise<Result> {
  const database = await startEmbedded({ dataDir });
  try {
    return await work(database);
  } finally {
    await database.stop();
  }
}

/** Opens the product on a folder: the database held by this process, the server as a process of its own. */
export async function openHouse(folder: BenchFolder): Promise<BenchHouse> {
  const database = await startEmbedded({ dataDir: folder.dataDir });
  const { appUrl, ownerUrl } = database;
  const app = kyselyOn(openPool(appUrl, { applicationName: "bench" }));
  const owner = kyselyOn(openPool(ownerUrl, { max: 2, applicationName: "bench" }));
  const server = startServer(["server/main.ts"], { DATABASE_URL: appUrl });
  const close = async () => {
    await server.stop();
    await Promise.all([app.destroy(), owner.destroy()]);
    await database.stop();
  };
  try {
    const { token } = await startSession(app, folder.register.account, "bench", "full", Date.now());
    const departmentId = await checkDatabase(appUrl);
    const cookie = `${sessionCookieName({ departmentId, isHttps: false })}=${token}`;
    return { ...folder, ...{ address: await server.address, cookie, appUrl, app, owner, close } };
  } catch (error) {
    await close();
    throw error;
  }
}

/** Starts the product as a person does, on any free port. `address` is there once it has printed one. */
export function startServer(program: readonly string[], env: Readonly<Record<string, string>>) {
  const child = spawn(process.execPath, program, {
    cwd: ROOT,
    env: { PATH: process.env["PATH"], PORT: "0", TMPDIR: os.tmpdir(), ...env },
    stdio: ["ignore", "pipe", "pipe"],
  });
  let said = "";
  for (const stream of [child.stdout, child.stderr]) stream.on("data", (words) => (said += words));
  const ended = once(child, "close");
  const address = new Promise<string>((resolve, reject) => {
    child.stdout.on("data", () => {
      const [found] = /https?:\/\/\S+/.exec(said) ?? [];
      if (found) resolve(found);
    });
    void ended.then(() => reject(new Error(`The server ended before it was ready: ${said}`)));
  });
  address.catch(() => {});
  let isStopping = false;
  void ended.then(() => isStopping || console.error(`The server ended before its time: ${said}`));
  const stop = async () => {
    isStopping = true;
    child.kill("SIGINT");
    await ended;
  };
  return { address, stop };
}

/** A program of this folder that works beside us and says once what it came to. */
export interface Hand<Result> {
  /** Has it finish what it began; without this it ends by its plan. */
  readonly end: () => void;
  readonly result: Promise<Result>;
}

/** Starts `hands/NAME.ts` with a plan, as a process that shares no event loop with us or with the server. */
export function startHand<Result>(name: string, plan: object): Hand<Result> {
  const child: ChildProcess = fork(path.join(ROOT, "test/bench/hands", `${name}.ts`), { cwd: ROOT });
  const result = new Promise<Result>((resolve, reject) => {
    child.once("message", (message) => resolve(message as Result));
    child.once("error", reject);
    child.once("exit", (code) => reject(new Error(`${name} ended with ${code} and said nothing.`)));
  });
  result.catch(() => {});
  child.send(plan);
  return { end: () => child.connected && child.send("end"), result };
}
