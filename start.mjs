// Plain JavaScript that any Node from 20 on can read: it finds a Node that can run the rest, and says so if there is none.
import { execFileSync, spawn } from "node:child_process";
import fs from "node:fs";
import path from "node:path";
import { fileURLToPath } from "node:url";

const ROOT = path.dirname(fileURLToPath(import.meta.url));
/** The first version whose node:crypto has argon2id; it also runs TypeScript files as they are. */
const NEEDED = [24, 7];
const OPTIONS = {
  "--demo": "fill a data folder of its own (data-demo) with an invented department",
  "--dev": "build the pages and start the server again whenever a file changes",
  "--build": "build the pages and stop",
  "--help": "say this",
};

function isNewEnough(version) {
  const [major = 0, minor = 0] = version.replace(/^v/, "").split(".").map(Number);
  return major > NEEDED[0] || (major === NEEDED[0] && minor >= NEEDED[1]);
}

/** The Node that runs us if it is new enough, else the one that npm installed beside the other parts. */
function findNode() {
  if (isNewEnough(process.version)) return process.execPath;
  const system = process.platform === "win32" ? "win" : process.platform;
  const name = process.platform === "win32" ? "node.exe" : "node";
  const brought = path.join(ROOT, "node_modules", `node-${system}-${process.arch}`, "bin", name);
  try {
    return isNewEnough(execFileSync(brought, ["--version"], { encoding: "utf8" }).trim())
      ? brought
      : undefined;
  } catch {
    return undefined;
  }
}

function stopWith(message) {
  console.error(`Layertrail did not start. ${message}`);
  process.exit(1);
}

function helpText() {
  const lines = Object.entries(OPTIONS).map(([option, does]) => `  ${option.padEnd(8)} ${does}`);
  return ["npm start -- [option]", ...lines, "Settings come from the environment: see README.md."].join("\n");
}

/** Starts a program that ends when we end; signals are passed on and its exit code becomes ours. */
function run(node, args, environment) {
  const child = spawn(node, args, {
    cwd: ROOT,
    stdio: ["inherit", "inherit", "inherit", "ipc"],
    env: {
      NODE_COMPILE_CACHE: path.join(ROOT, "node_modules/.cache/layertrail"),
      ...process.env,
      ...environment,
    },
  });
  for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"]) {
    process.on(signal, () => child.kill(signal === "SIGHUP" ? "SIGTERM" : signal));
  }
  stopWhenOrphaned(child);
  child.on("exit", (code, signal) => process.exit(signal ? 1 : (code ?? 1)));
  child.on("error", (error) => stopWith(error.message));
}

/** npm hands a signal to its shell, which dies of it without telling us: a parent that changes means that we should end. */
function stopWhenOrphaned(child) {
  if (process.env["npm_lifecycle_event"] === undefined) return;
  const parent = process.ppid;
  const watch = setInterval(() => {
    if (process.ppid === parent) return;
    clearInterval(watch);
    child.kill("SIGTERM");
  }, 250);
  watch.unref();
}

const asked = process.argv.slice(2);
const unknown = asked.find((option) => !(option in OPTIONS));
if (unknown) stopWith(`There is no option ${unknown}.\n${helpText()}`);
if (asked.includes("--help")) {
  console.log(helpText());
  process.exit(0);
}

const node = findNode();
if (!node) {
  stopWith(
    `It needs Node ${NEEDED.join(".")} or later, this is ${process.version}, and the one that "npm ci" brings for this machine is not there (--omit=optional?).`,
  );
}
if (!fs.existsSync(path.join(ROOT, "node_modules/vite")))
  stopWith('The parts are not installed. Run "npm ci" first.');

const { buildPages } = await import("./web/build-pages.mjs");
const failure = buildPages(node);
if (failure) stopWith(failure);
if (asked.includes("--build")) process.exit(0);

const server = path.join(ROOT, "server/main.ts");
const environment = asked.includes("--demo") ? { LAYERTRAIL_DEMO: "1" } : {};
if (asked.includes("--dev")) {
  const vite = path.join(ROOT, "node_modules/vite/bin/vite.js");
  const options = ["build", "web", "--config", "web/vite.config.ts", "--configLoader", "native", "--watch"];
  const builder = spawn(node, [vite, ...options], { cwd: ROOT, stdio: "inherit" });
  process.on("exit", () => builder.kill());
  run(node, ["--watch", server], environment);
} else {
  run(node, [server], environment);
}
