import type { Browser } from "playwright-core";
import { afterAll, beforeAll } from "vitest";
import { launchBrowser } from "./open-browser.ts";
import { type RunningHouse, startHouse } from "./running-house.ts";
import { type SeededDepartment, seedDepartment } from "./seed-department.ts";
import { type TestDatabase, useTestDatabase } from "./test-database.ts";

/** The real program on a department's database, and a browser to open it in. */
export interface BrowserHouse {
  readonly address: string;
  readonly browser: Browser;
  readonly said: () => string;
  readonly db: TestDatabase;
  readonly department: SeededDepartment;
}

/**
 * Starts the program as a process of its own on a seeded database, and a browser. Call it once, at the top level or
 * in a describe; read its members inside tests.
 */
export function useBrowserHouse(options: { readonly isEmpty?: boolean } = {}): BrowserHouse {
  const db = useTestDatabase();
  let house: RunningHouse | undefined;
  let browser: Browser | undefined;
  let department: SeededDepartment | undefined;
  beforeAll(async () => {
    if (!options.isEmpty) department = await seedDepartment(db.app);
    house = await startHouse({ env: { DATABASE_URL: db.appUrl } });
    browser = await launchBrowser();
  });
  afterAll(async () => {
    await browser?.close();
    await house?.stop();
  });
  const open = <Part>(part: Part | undefined): Part => {
    if (part === undefined)
      throw new Error("The house is open from the first test on, not while the file is read.");
    return part;
  };
  return {
    db,
    get address() {
      return open(house).address;
    },
    get browser() {
      return open(browser);
    },
    said: () => open(house).said(),
    get department() {
      return open(department);
    },
  };
}
