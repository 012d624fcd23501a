import fs from "node:fs";
import path from "node:path";

/** Who may import whom: the rooms and, after them, the packages. `node` is any module of Node. */
interface Room {
  readonly rooms: readonly string[];
  readonly packages: readonly string[];
}

const VIEW = ["preact", "preact/hooks", "preact/compat", "preact/jsx-runtime", "@preact/signals"];
const FONTS = ["@fontsource-variable/*", "@fontsource/*"];
const LABELS = ["labels/layout", "labels/draw", "labels/papers"];
const SERVER = [
  "server/domain",
  "server/ledger",
  "server/store",
  "server/cases",
  "server/intake",
  "server/jobs",
  "server/http",
  "server/cli",
  "server/demo",
];

const ROOMS: Readonly<Record<string, Room>> = {
  "server/domain": { rooms: [], packages: [] },
  "server/ledger": { rooms: ["server/domain"], packages: ["node:crypto", "canonicalize"] },
  "server/store": { rooms: ["server/domain", "server/ledger", "db/schema"], packages: ["kysely"] },
  "server/cases": {
    rooms: ["server/domain", "server/ledger", "server/store"],
    packages: ["node:crypto", "node:util"],
  },
  "server/intake": { rooms: ["server/domain"], packages: ["node", "csv-parse", "csv-parse/sync"] },
  "server/jobs": {
    rooms: ["server/domain", "server/cases", "server/intake", ...LABELS],
    packages: ["node:worker_threads", "node:url", "node:path"],
  },
  "server/http": {
    rooms: ["server/domain", "server/cases", "server/jobs", ...LABELS],
    packages: ["hono", "hono/*", "@hono/*", "zod", "node"],
  },
  "server/cli": {
    rooms: ["server/domain", "server/cases", "server/jobs", "server/intake", "db", ...LABELS],
    packages: ["node"],
  },
  "server/demo": { rooms: ["server/domain", "server/ledger", "server/store", "server/cases"], packages: [] },
  server: {
    rooms: [...SERVER, ...LABELS, "db", "db/schema"],
    packages: ["node", "zod", "@hono/node-server"],
  },
  "labels/layout": { rooms: ["server/domain"], packages: [] },
  "labels/draw": {
    rooms: ["labels/layout", "server/domain"],
    packages: ["node", "pdf-lib", "@pdf-lib/fontkit", "bwip-js/*", "dejavu-fonts-ttf", ...FONTS],
  },
  "labels/papers": { rooms: ["labels/layout", "labels/draw", "server/domain"], packages: [] },
  db: { rooms: ["db/schema"], packages: ["node", "kysely", "pg"] },
  "db/schema": { rooms: [], packages: ["kysely"] },
  "web/scan": {
    rooms: ["server/domain"],
    packages: ["@zxing/browser", "@zxing/library", "zxing-wasm", "zxing-wasm/*"],
  },
  "web/look": { rooms: [], packages: [...VIEW, ...FONTS] },
  "web/api": { rooms: ["server/domain", "server/http"], packages: ["hono/client"] },
  "web/screens": { rooms: ["server/domain", "web/api", "web/scan", "web/look"], packages: VIEW },
  web: {
    rooms: ["server/domain", "web/api", "web/scan", "web/look", "web/screens"],
    packages: [...VIEW, ...FONTS, "vite"],
  },
};

const TOP = ["server", "labels", "db", "web"];
const BANNED_NAMES = /^(utils?|helpers?|lib|common|misc|types|index)\.(ts|tsx)$/;
/** What neither tsc nor Biome sees in the domain: language globals that are not pure. */
const IMPURE = /\b(Math\.random|Intl|toLocale\w+|localeCompare)\b/;
const LONGEST_FILE_LINES = 300;
const IMPORT =
  /^(import|export)\s+(type\s)?(?:[^"';]*?from\s*)?["']([^"']+)["']|\bimport\(\s*["']([^"']+)["']/gm;

/** Lists every place where the house rules on imports, names and sizes are broken, one line each. */
export function brokenBorders(root: string): readonly string[] {
  const files = TOP.flatMap((top) => sourceFiles(path.join(root, top)));
  return files.flatMap((file) => {
    const name = path.relative(root, file).split(path.sep).join("/");
    const text = fs.readFileSync(file, "utf8");
    return [...shapeFaults(name, text), ...(isTest(name) ? [] : importFaults(name, text))].map(
      (fault) => `${name}: ${fault}`,
    );
  });
}

function sourceFiles(dir: string): string[] {
  return fs.readdirSync(dir, { withFileTypes: true }).flatMap((entry) => {
    const target = path.join(dir, entry.name);
    if (entry.isDirectory()) return entry.name.startsWith("dist") ? [] : sourceFiles(target);
    return /\.tsx?$/.test(entry.name) ? [target] : [];
  });
}

function isTest(name: string): boolean {
  return /\.test\.tsx?$/.test(name);
}

/** The room that a file is in: the longest of the listed folders that hold it. */
export function roomOf(name: string): string | undefined {
  return Object.keys(ROOMS)
    .filter((room) => name.startsWith(`${room}/`))
    .sort((a, b) => b.length - a.length)[0];
}

function shapeFaults(name: string, text: string): string[] {
  const faults: string[] = [];
  const base = path.posix.basename(name);
  if (BANNED_NAMES.test(base)) faults.push("a file is named for the idea in it");
  if (!/^[a-z0-9]+([-.][a-z0-9]+)*\.tsx?$/.test(base)) faults.push("file names are kebab-case");
  const lines = text.split("\n").length - 1;
  if (lines > LONGEST_FILE_LINES && name !== "db/schema/database.ts")
    faults.push(`${lines} lines, at most ${LONGEST_FILE_LINES}`);
  const isDomain = name.startsWith("server/domain/") || name.startsWith("labels/layout/");
  const impure = isDomain && !isTest(name) ? IMPURE.exec(text)?.[0] : undefined;
  if (impure) faults.push(`${impure} is not pure`);
  if (/\bTODO\b(?!.*#\d)/.test(text)) faults.push("a TODO names its issue");
  return faults;
}

function importFaults(name: string, text: string): string[] {
  const room = roomOf(name);
  if (room === undefined) return ["is in no room of the house"];
  return importsOf(text).flatMap(({ from, isType }) => {
    if (!from.startsWith("."))
      return mayImport(ROOMS[room]?.packages ?? [], from) ? [] : [`${room} may not import ${from}`];
    const target = path.posix.join(path.posix.dirname(name), from);
    if (/\.(css|json|mjs)(\?\w+)?$/.test(target)) return [];
    const targetRoom = roomOf(target);
    if (targetRoom === room || (targetRoom && ROOMS[room]?.rooms.includes(targetRoom))) {
      return room === "web/api" && targetRoom === "server/http" && !isType
        ? [`only types may come from ${target}`]
        : [];
    }
    return [`${room} may not import ${target}`];
  });
}

/** The modules that a text imports, and whether it takes types alone. */
export function importsOf(text: string): readonly { readonly from: string; readonly isType: boolean }[] {
  return [...text.matchAll(IMPORT)].map((found) => ({
    from: found[3] ?? found[4] ?? "",
    isType: found[2] !== undefined,
  }));
}

function mayImport(packages: readonly string[], name: string): boolean {
  return packages.some((allowed) => {
    if (allowed === "node") return name.startsWith("node:");
    return allowed.endsWith("/*") ? name.startsWith(allowed.slice(0, -1)) : name === allowed;
  });
}
