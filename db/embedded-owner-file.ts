import fs from "node:fs";
import { startOfProcess } from "./process-identity.ts";
import { StartTrouble } from "./start-trouble.ts";

/** Which server process has the data folder: a pid alone can be given again, so the time of its start is kept too. */
interface Owner {
  readonly pid: number;
  readonly start: string;
}

export interface OwnerClaim {
  /** Gives the folder back. */
  release(): void;
}

/**
 * Claims the data folder for this process. A file left by a process that is gone, or whose pid now belongs to
 * another one, is cleared; a living owner is refused in one line.
 */
export function claimFolder(ownerFile: string, folder: string): OwnerClaim {
  const mine = JSON.stringify({ pid: process.pid, start: startOfProcess(process.pid) ?? "" } satisfies Owner);
  const draft = `${ownerFile}.${process.pid}`;
  fs.writeFileSync(draft, mine, { mode: 0o600 });
  try {
    for (let attempt = 0; attempt < 20; attempt += 1) {
      if (linkUnlessThere(draft, ownerFile)) return { release: () => releaseFolder(ownerFile, mine) };
      const found = readText(ownerFile);
      if (found === undefined) continue;
      const owner = parseOwner(found);
      if (owner && isAlive(owner)) throw inUse(folder, owner.pid);
      clearStale(ownerFile, found);
    }
  } finally {
    fs.rmSync(draft, { force: true });
  }
  throw inUse(folder, undefined);
}

/** Gives the process id of the server that has the folder now; undefined when nobody has it. */
export function findLivingOwner(ownerFile: string): number | undefined {
  const owner = parseOwner(readText(ownerFile) ?? "");
  return owner && isAlive(owner) ? owner.pid : undefined;
}

function inUse(folder: string, pid: number | undefined): StartTrouble {
  const by =
    pid === undefined ? "by another Layertrail server" : `by the Layertrail server with process id ${pid}`;
  return new StartTrouble(
    "folder-in-use",
    `The folder ${folder} is in use ${by}. Stop that one, or set DATA_DIR to another folder.`,
  );
}

function isAlive(owner: Owner): boolean {
  return startOfProcess(owner.pid) === owner.start;
}

/** A link is made whole or not at all, so nobody reads a half-written owner file. */
function linkUnlessThere(draft: string, ownerFile: string): boolean {
  try {
    fs.linkSync(draft, ownerFile);
    return true;
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code;
    if (code === "EEXIST") return false;
    if (code !== "EPERM" && code !== "ENOTSUP" && code !== "ENOSYS") throw error;
  }
  // File systems without hard links.
  try {
    fs.copyFileSync(draft, ownerFile, fs.constants.COPYFILE_EXCL);
    return true;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "EEXIST") return false;
    throw error;
  }
}

/** Moves a stale file away; when another process has claimed the folder meanwhile, its file is put back. */
function clearStale(ownerFile: string, stale: string): void {
  const aside = `${ownerFile}.stale.${process.pid}`;
  try {
    fs.renameSync(ownerFile, aside);
  } catch {
    return;
  }
  if (readText(aside) !== stale) linkUnlessThere(aside, ownerFile);
  fs.rmSync(aside, { force: true });
}

function releaseFolder(ownerFile: string, mine: string): void {
  if (readText(ownerFile) === mine) fs.rmSync(ownerFile, { force: true });
}

function readText(file: string): string | undefined {
  try {
    return fs.readFileSync(file, "utf8");
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "ENOENT") return undefined;
    throw error;
  }
}

function parseOwner(text: string): Owner | undefined {
  try {
    const value = JSON.parse(text) as Partial<Owner> | null;
    return value && typeof value.pid === "number" && typeof value.start === "string"
      ? { pid: value.pid, start: value.start }
      : undefined;
  } catch {
    return undefined;
  }
}
