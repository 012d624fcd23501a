import { defineConfig } from "vitest/config";

const PURE = "{server/domain,server/ledger,labels/layout}/**/*.test.ts";

/** The pure rooms once more, where a day begins at another moment: what they say must not move with the machine. */
function inZone(name: string, zone: string) {
  const test = {
    name,
    include: [PURE],
    env: { TZ: zone },
    setupFiles: ["test/kit/silent-console.ts", "test/kit/in-zone.ts"],
  };
  return { extends: true as const, test };
}

export default defineConfig({
  oxc: { jsx: { runtime: "automatic", importSource: "preact" } },
  test: {
    allowOnly: false,
    passWithNoTests: false,
    // Child processes, because a time zone holds for a whole process.
    pool: "forks",
    setupFiles: "test/kit/silent-console.ts",
    // Tests are no stop-watches: a busy machine may take its time, and a hung test still ends.
    testTimeout: 60_000,
    projects: [
      { extends: true, test: { name: "unit", include: ["{server,labels,web,db}/**/*.test.{ts,tsx}"] } },
      inZone("unit at +13:45", "Pacific/Chatham"),
      inZone("unit at -03:30", "America/St_Johns"),
      {
        extends: true,
        test: {
          name: "db",
          include: ["test/{api,labels,house,schema}/**/*.test.ts"],
          globalSetup: "test/kit/global-database.ts",
          testTimeout: 120_000,
          hookTimeout: 120_000,
        },
      },
      {
        extends: true,
        test: {
          name: "browser",
          include: ["test/browser/**/*.test.ts"],
          globalSetup: "test/kit/global-database.ts",
          fileParallelism: false,
          testTimeout: 120_000,
          hookTimeout: 180_000,
        },
      },
    ],
  },
});
