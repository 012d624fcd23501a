// npm run check: format, lint, types, borders, unused code. Every part runs, so that one round shows all faults.
import { spawnSync } from "node:child_process";
import fs from "node:fs";
import path from "node:path";
import { fileURLToPath } from "node:url";

const ROOT = path.resolve(path.dirname(fileURLToPath(import.meta.url)), "..");
const PARTS = {
  "format and lint": ["@biomejs/biome/bin/biome", "check", "--error-on-warnings"],
  types: ["typescript/bin/tsc", "-b"],
  borders: undefined,
  "unused code": ["knip/bin/knip.js"],
};

function runTool([tool, ...options]) {
  const run = spawnSync(process.execPath, [path.join(ROOT, "node_modules", tool), ...options], {
    cwd: ROOT,
    stdio: "inherit",
  });
  return run.status === 0;
}

async function checkBorders() {
  const { brokenBorders } = await import("./borders.ts");
  const faults = brokenBorders(ROOT);
  for (const fault of faults) console.error(fault);
  return faults.length === 0;
}

if (!fs.existsSync(path.join(ROOT, "node_modules/knip"))) {
  console.error(
    'The tools of the check are not installed. Run "npm ci" without NODE_ENV=production and --omit=dev.',
  );
  process.exit(1);
}

const failed = [];
for (const [name, tool] of Object.entries(PARTS)) {
  const isGood = tool ? runTool(tool) : await checkBorders();
  console.log(`${isGood ? "ok" : "FAILED"}: ${name}`);
  if (!isGood) failed.push(name);
}
if (failed.length > 0) {
  console.error(`The check failed: ${failed.join(", ")}.`);
  process.exit(1);
}
