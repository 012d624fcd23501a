import fs from "node:fs";
import path from "node:path";
import { kyselyOn, openPool } from "../db/connect.ts";
import { StartTrouble } from "../db/start-trouble.ts";
import { firstManagerLink, linkPath, setUp } from "./cases/set-up.ts";
import { type Config, parseConfig } from "./config.ts";
import { openDemo } from "./demo/open-demo.ts";
import { createApp } from "./http/app.ts";
import { openJobs } from "./jobs/open-jobs.ts";
import { type Listening, listen } from "./listen.ts";
import { openDatabase } from "./open-database.ts";
import { isHttps, ownHosts } from "./own-addresses.ts";
import { keepAddress } from "./running-address.ts";

/** A running Layertrail. */
interface House {
  readonly listening: Listening;
  /** Where the first program manager comes in, while there is none. */
  readonly firstLink: string | undefined;
  /** How the demo's people sign in. */
  readonly signIns: readonly string[];
  readonly close: () => Promise<void>;
}

/** Puts the parts together, in the order in which they need each other. */
async function open(config: Config): Promise<House> {
  if (!fs.existsSync(path.join(config.webDir, "index.html"))) {
    throw new StartTrouble(
      "pages-missing",
      'The pages are not built. Start with "npm start", which builds them.',
    );
  }
  const database = await openDatabase(config);
  const db = kyselyOn(openPool(database.appUrl));
  try {
    const timeZone = new Intl.DateTimeFormat().resolvedOptions().timeZone;
    const signIns = config.isDemo ? await openDemo(db) : [];
    await setUp(db, { nowMs: Date.now(), appBuild: "server", timeZone });
    const link = await firstManagerLink(db, Date.now());
    const jobs = openJobs({
      ...{ db, databaseUrl: database.appUrl, now: Date.now },
      threadFile: new URL("./job-thread.ts", import.meta.url),
      onFault: (fault) => console.error(fault),
    });
    const app = createApp({
      db,
      jobs,
      now: Date.now,
      departmentId: database.databaseId,
      hosts: ownHosts(config),
      isHttps: isHttps(config),
      webDist: config.webDir,
      onFault: (fault) => console.error(fault),
    });
    const listening = await listen(config, app.fetch);
    // A database of the department's own may have several servers, and each of them its own address.
    const isAlone = config.databaseUrl === undefined;
    const forget = isAlone ? keepAddress(config.dataDir, listening.addresses.at(-1) ?? "") : () => {};
    const close = async () => {
      forget();
      await listening.drain();
      await jobs.close();
      await db.destroy();
      await database.close();
    };
    return { listening, firstLink: link && linkPath(link), signIns, close };
  } catch (error) {
    await db.destroy();
    await database.close();
    throw error;
  }
}

/** A signal that comes while the house is still opening waits for that, so that no database is left running alone. */
function closeOnSignal(opening: Promise<House>): void {
  let isClosing = false;
  const stop = () => {
    if (isClosing) return;
    isClosing = true;
    opening
      .then((house) => house.close())
      .then(() => process.exit(0))
      .catch(fail);
  };
  process.on("SIGINT", stop);
  process.on("SIGTERM", stop);
  // start.mjs holds this channel; when it is gone nobody is left to pass a signal on.
  process.on("disconnect", stop);
}

function fail(error: unknown): never {
  if (error instanceof StartTrouble) console.error(`Layertrail did not start. ${error.message}`);
  else console.error(error);
  process.exit(1);
}

try {
  const opening = open(parseConfig(process.env));
  closeOnSignal(opening);
  const { listening, firstLink, signIns } = await opening;
  for (const address of listening.addresses) console.log(`Layertrail is at ${address}`);
  for (const line of signIns) console.log(line);
  if (firstLink) {
    const address = listening.addresses.at(-1);
    console.log(`The first program manager comes in here, once, within 24 hours: ${address}${firstLink}`);
  }
} catch (error) {
  fail(error);
}
