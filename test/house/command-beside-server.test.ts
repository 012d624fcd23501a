import { execFile } from "node:child_process";
import fs from "node:fs";
import path from "node:path";
import { expect, test } from "vitest";
import { clusterPaths } from "../../db/embedded-cluster.ts";
import { findPostmaster } from "../../db/embedded-postmaster.ts";
import { ROOT, startHouse, withFolder } from "../kit/running-house.ts";

interface Ended {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

/** Runs the program as `npm run layertrail --` does, on a data folder or another database. */
function command(args: readonly string[], env: Readonly<Record<string, string>>): Promise<Ended> {
  return new Promise((resolve) => {
    const child = execFile(
      process.execPath,
      ["server/layertrail.ts", ...args],
      { cwd: ROOT, env: { PATH: process.env["PATH"], ...env } },
      (_, out, err) => resolve({ code: child.exitCode ?? -1, out: out.trim(), err: err.trim() }),
    );
  });
}

const isRunning = (dataDir: string) => findPostmaster(clusterPaths(dataDir)) !== undefined;

test("a command works beside a running server and on a stopped one, and leaves each as it was", () =>
  withFolder(async (folder) => {
    const dataDir = path.join(folder, "data");
    const env = { DATA_DIR: dataDir };
    const house = await startHouse({ env });
    const beside = await command(["verify", "--json"], env);
    expect(beside).toMatchObject({ code: 0, err: "" });
    const backup = path.join(folder, "backup");
    expect(await command(["backup", backup], env)).toMatchObject({ code: 0 });
    const link = JSON.parse((await command(["officer-link", "--json"], env)).out) as { url: string };
    expect(link.url.split("/link#")[0]).toBe(house.address);
    expect(isRunning(dataDir)).toBe(true);
    expect(await house.stop()).toBe(0);
    expect(isRunning(dataDir)).toBe(false);
    const later = await command(["officer-link"], { ...env, PORT: "4199" });
    expect(later.out).toMatch(/^http:\/\/localhost:4199\/link#/);
    const unknown = await command(["officer-link"], { ...env, PORT: "0" });
    expect(unknown.out).toMatch(/^\/link#.*\n.* at the address that Layertrail prints when it starts/);
    const alone = await command(["verify", "--json"], env);
    expect(alone).toEqual(beside);
    expect(isRunning(dataDir)).toBe(false);
    const copy = await command(["restore", backup, "--json"], { DATA_DIR: path.join(folder, "copy") });
    expect(copy).toMatchObject({ code: 0 });
    expect(JSON.parse(copy.out)).toMatchObject(JSON.parse(beside.out) as object);
  }));

test("where there is no database none is made by looking for one", () =>
  withFolder(async (folder) => {
    const dataDir = path.join(folder, "mistyped");
    const { code, out, err } = await command(["verify"], { DATA_DIR: dataDir });
    expect([code, out]).toEqual([3, ""]);
    expect(err).toBe(
      `There is no database in ${dataDir}. Start Layertrail once, or set DATA_DIR to the folder that it uses.`,
    );
    expect(fs.existsSync(dataDir)).toBe(false);
  }));

test("a database that cannot be reached, and settings that do not fit, end with 3 and one line", async () => {
  const away = await command(["verify"], { DATABASE_URL: "postgresql://nobody@127.0.0.1:9/none" });
  expect(away.code).toBe(3);
  expect(away.err).toMatch(/^The database of DATABASE_URL could not be used: .+$/);
  const wrong = await command(["verify"], { PORT: "many" });
  expect([wrong.code, wrong.err]).toEqual([
    3,
    "The settings do not fit: PORT must be a port number, 0 to 65535.",
  ]);
});
