import { spawnSync } from "node:child_process";
import crypto from "node:crypto";
import fs from "node:fs";
import path from "node:path";
import { fileURLToPath } from "node:url";

const ROOT = path.resolve(path.dirname(fileURLToPath(import.meta.url)), "..");
const DIST = path.join(ROOT, "web/dist");
const STAMP = "built-from";
/** What the pages are made from. The pages run the domain code, so a change there is a change here. */
const INPUTS = ["web", "server/domain", "labels/layout", "package-lock.json"];

/** Builds web/dist with the given Node unless it was built from these very inputs. Returns the error to show, if any. */
export function buildPages(node) {
  const inputs = hashInputs();
  if (readStamp() === inputs) return undefined;
  const next = `${DIST}.${process.pid}`;
  try {
    fs.mkdirSync(next, { recursive: true });
    const vite = path.join(ROOT, "node_modules/vite/bin/vite.js");
    const options = ["build", "web", "--config", "web/vite.config.ts", "--configLoader", "native"];
    const run = spawnSync(node, [vite, ...options, "--outDir", next, "--logLevel", "warn"], {
      cwd: ROOT,
      encoding: "utf8",
    });
    if (run.status !== 0)
      return `The pages could not be built. ${run.stderr || run.stdout || run.error?.message}`;
    fs.writeFileSync(path.join(next, STAMP), inputs);
    swap(next);
    return undefined;
  } catch (error) {
    const why = { ENOSPC: "its disk is full", EACCES: "no permission", EROFS: "its disk only reads" }[
      error.code
    ];
    return `The pages could not be built in ${path.dirname(DIST)}: ${why ?? error.message}.`;
  } finally {
    fs.rmSync(next, { recursive: true, force: true });
  }
}

/** Puts the new folder in place of the old one. Two builds at once may meet here; whichever is last stays. */
function swap(next) {
  for (let attempt = 1; ; attempt += 1) {
    const old = `${DIST}.old.${process.pid}`;
    if (fs.existsSync(DIST)) fs.renameSync(DIST, old);
    fs.rmSync(old, { recursive: true, force: true });
    try {
      fs.renameSync(next, DIST);
      return;
    } catch (error) {
      if (attempt === 5) throw error;
    }
  }
}

function readStamp() {
  try {
    return fs.readFileSync(path.join(DIST, STAMP), "utf8");
  } catch {
    return undefined;
  }
}

function hashInputs() {
  const hash = crypto.createHash("sha256");
  for (const file of INPUTS.flatMap((input) => filesOf(path.join(ROOT, input))).sort()) {
    hash.update(`${path.relative(ROOT, file)}\0`);
    hash.update(crypto.createHash("sha256").update(fs.readFileSync(file)).digest());
  }
  return hash.digest("hex");
}

function filesOf(target) {
  if (!fs.existsSync(target)) return [];
  if (fs.statSync(target).isFile()) return /\.test\.tsx?$/.test(target) ? [] : [target];
  return fs
    .readdirSync(target)
    .filter((name) => target !== path.join(ROOT, "web") || !name.startsWith("dist"))
    .flatMap((name) => filesOf(path.join(target, name)));
}
