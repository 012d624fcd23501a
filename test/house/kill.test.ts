import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import fs from "node:fs";
import net from "node:net";
import path from "node:path";
import readline from "node:readline";
import { sql } from "kysely";
import { expect, test } from "vitest";
import { checkDatabase } from "../../db/check-database.ts";
import { kyselyOn, openPool } from "../../db/connect.ts";
import { findRunning } from "../../db/running-embedded.ts";
import { openAccountAct } from "../../server/cases/account-acts.ts";
import { namePlaceAct, registerPiecesAct } from "../../server/cases/register-acts.ts";
import { startSession } from "../../server/cases/sessions.ts";
import { verifyLedger } from "../../server/cases/verify.ts";
import type { PlaceId } from "../../server/domain/ids.ts";
import { sessionCookieName } from "../../server/http/session-cookie.ts";
import type { Db } from "../../server/store/db.ts";
import { actor, aDraft, anId } from "../kit/acting.ts";
import { ROOT, type RunningHouse, startHouse, withFolder } from "../kit/running-house.ts";
import type { BenchWord } from "../kit/sending-bench.ts";

const KILLS = Number(process.env["LAYERTRAIL_KILLS"] ?? 50);
const SEED = Number(process.env["LAYERTRAIL_KILL_SEED"] ?? Date.now() % 1_000_000);
const VERIFY_EVERY = 10;
/** As often as it stands here. A server takes longest to come back. */
const WHAT_IS_KILLED = ["server", "server", "database", "database", "database", "both"] as const;

/** Numbers from 0 to 1 that follow from a seed (mulberry32), so that a run can be repeated. */
function seededNumbers(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
}

async function withDatabase<Result>(
  dataDir: string,
  work: (db: Db, appUrl: string) => Promise<Result>,
): Promise<Result> {
  const running = await findRunning(dataDir);
  if (!running) throw new Error("Nobody runs the database.");
  const db = kyselyOn(openPool(running.appUrl, { max: 3 }));
  try {
    return await work(db, running.appUrl);
  } finally {
    await db.destroy();
  }
}

/** Two benches with three hands each, every hand with pieces of its own and one piece that all of them move. */
function openBenches(dataDir: string) {
  return withDatabase(dataDir, async (db, appUrl) => {
    const odile = actor(() => db, "program manager", new Date(Date.now() - 60_000).toISOString());
    const places = [anId<PlaceId>(), anId<PlaceId>()];
    for (const [index, id] of places.entries()) {
      await odile.must(namePlaceAct, { id, name: `Rack ${index}`, what: "rack", carries: "shared" });
    }
    const drafts = Array.from({ length: 13 }, () => aDraft("hood", places[0] as PlaceId));
    await odile.must(registerPiecesAct, { pieces: drafts, evidence: "typed" });
    await odile.must(openAccountAct, { account: odile.by, role: "technician", name: "Inez Calloway" });
    const session = await startSession(db, odile.by, "kill test", "full", Date.now());
    const departmentId = await checkDatabase(appUrl);
    const cookie = `${sessionCookieName({ departmentId, isHttps: false })}=${session.token}`;
    const pieces = drafts.map(({ id }) => id);
    const shared = pieces[12] as string;
    const hands = Array.from({ length: 6 }, (_, hand) => [...pieces.slice(hand * 2, hand * 2 + 2), shared]);
    return { cookie, places, benches: [hands.slice(0, 3), hands.slice(3)] };
  });
}

interface Bench {
  readonly said: BenchWord[];
  readonly end: () => Promise<void>;
  readonly process: ChildProcess;
}

function startBench(plan: object): Bench {
  const child = spawn(process.execPath, ["test/kit/sending-bench.ts", JSON.stringify(plan)], {
    cwd: ROOT,
    stdio: ["pipe", "pipe", "inherit"],
  });
  const said: BenchWord[] = [];
  const lines = readline.createInterface({ input: child.stdout });
  lines.on("line", (line) => said.push(JSON.parse(line) as BenchWord));
  const over = Promise.all([once(child, "exit"), once(lines, "close")]);
  const end = async () => {
    child.stdin.end();
    await over;
  };
  return { said, end, process: child };
}

function freePort(): Promise<number> {
  return new Promise((resolve) => {
    const probe = net.createServer();
    probe.listen(0, "127.0.0.1", () => {
      const { port } = probe.address() as net.AddressInfo;
      probe.close(() => resolve(port));
    });
  });
}

const pause = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));
function killDatabase(dataDir: string): void {
  const [pid] = fs.readFileSync(path.join(dataDir, "database", "postmaster.pid"), "utf8").split("\n");
  process.kill(Number(pid), "SIGKILL");
}

/**
 * Each act that was acknowledged is there once, at the position that was told, with all its entries; an act that was
 * refused is not there; the ledger and every table are whole.
 */
async function expectNothingLost(db: Db, said: readonly BenchWord[]): Promise<void> {
  const acknowledged = said.flatMap((word) => ("acknowledged" in word ? [word] : []));
  const { rows } = await sql<{ id: string; position: number; entries: number }>`
    select a.id, a.position, (select count(*) from entry e where e.act = a.id) as entries from act a
    where command = 'movePieces'`.execute(db);
  const written = new Map(rows.map((row) => [row.id, row]));
  for (const { acknowledged: id, position, entries } of acknowledged) {
    expect(written.get(id)).toEqual({ id, position, entries });
  }
  for (const word of said) if ("refused" in word) expect(written.has(word.refused)).toBe(false);
  expect(new Set(acknowledged.map((word) => word.acknowledged)).size).toBe(acknowledged.length);
  expect((await verifyLedger(db)).findings).toEqual([]);
}

test(
  `no acknowledged act is lost or written twice by ${KILLS} kills of server and database (seed ${SEED})`,
  () =>
    withFolder(async (dataDir) => {
      const random = seededNumbers(SEED);
      const port = await freePort();
      // As `npm start` does: a server that comes back need not be compiled again.
      const NODE_COMPILE_CACHE = path.join(ROOT, "node_modules/.cache/layertrail");
      const env = { DATA_DIR: dataDir, PORT: String(port), NODE_COMPILE_CACHE };
      let house: RunningHouse = await startHouse({ env });
      const { benches: hands, ...rest } = await openBenches(dataDir);
      const address = `http://127.0.0.1:${port}`;
      const benches = hands.map((own) => startBench({ address, hands: own, ...rest }));
      const heard = () => benches.flatMap(({ said }) => said);
      const hearMore = async () => {
        const before = heard().length;
        for (const deadline = Date.now() + 30_000; heard().length < before + 3; await pause(5)) {
          expect(Date.now(), `nothing was acknowledged for 30 s, seed ${SEED}`).toBeLessThan(deadline);
        }
      };
      try {
        for (let kill = 1; kill <= KILLS; kill += 1) {
          await hearMore();
          await pause(random() * 120);
          const which = WHAT_IS_KILLED[Math.floor(random() * WHAT_IS_KILLED.length)] ?? "server";
          if (which !== "server") killDatabase(dataDir);
          if (which !== "database") {
            await pause(which === "both" ? random() * 40 : 0);
            await house.kill();
            house = await startHouse({ env });
          }
          if (kill % VERIFY_EVERY === 0) {
            await hearMore();
            await withDatabase(dataDir, (db) => expectNothingLost(db, heard()));
          }
        }
        await Promise.all(benches.map(({ end }) => end()));
        const said = heard();
        // A piece that all hands move may have gone on before an act of earlier is sent again; nothing else is refused.
        const codes = said.flatMap((word) => ("refused" in word ? [word.code] : []));
        expect([...new Set(codes)].filter((code) => code !== "does-not-fit-the-record")).toEqual([]);
        await withDatabase(dataDir, async (db) => {
          await expectNothingLost(db, said);
          const { rows } = await sql<{ acts: number }>`
            select count(*) as acts from act where command = 'movePieces'`.execute(db);
          expect(rows[0]?.acts, "acts that nobody was told of").toBe(said.length - codes.length);
        });
        // Otherwise the kills fell into no act, and the run has shown nothing.
        const sentAgain = said.filter((word) => "sendings" in word && word.sendings > 1).length;
        expect(sentAgain).toBeGreaterThan(KILLS / 2);
      } finally {
        for (const bench of benches) bench.process.kill("SIGKILL");
        await house.stop();
      }
    }),
  60_000 + KILLS * 12_000,
);
