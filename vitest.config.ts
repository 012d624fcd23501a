import { defineConfig } from "vitest/config";

export default defineConfig({
  oxc: { jsx: { runtime: "automatic", importSource: "preact" } },
  test: {
    projects: [
      {
        extends: true,
        test: { name: "unit", include: ["{server,labels,web,db}/**/*.test.{ts,tsx}"], environment: "node" },
      },
      {
        extends: true,
        test: {
          name: "db",
          include: ["test/{api,labels,house}/**/*.test.ts"],
          globalSetup: "test/kit/global-database.ts",
          testTimeout: 60_000,
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
