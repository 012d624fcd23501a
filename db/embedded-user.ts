import { execFileSync } from "node:child_process";
import fs from "node:fs";
import path from "node:path";
import { StartTrouble } from "./start-trouble.ts";

/** The user that PostgreSQL runs as when it is not the one that we are. */
export interface RunAs {
  readonly uid: number;
  readonly gid: number;
}

/** Users tried in this order when the server is started as root, because PostgreSQL refuses to run as root. */
const UNPRIVILEGED_USERS = ["layertrail", "nobody"];

/**
 * Chooses who runs PostgreSQL: undefined for ourselves; as root the owner of a cluster that already exists,
 * since only its owner may open it, else an unprivileged user of this machine.
 */
export function chooseRunAs(clusterDir: string): RunAs | undefined {
  if (process.getuid?.() !== 0) return undefined;
  const owner = fs.statSync(clusterDir, { throwIfNoEntry: false });
  if (owner && owner.uid !== 0) return { uid: owner.uid, gid: owner.gid };
  for (const name of UNPRIVILEGED_USERS) {
    const uid = askId("-u", name);
    const gid = askId("-g", name);
    if (uid !== undefined && gid !== undefined && uid !== 0) return { uid, gid };
  }
  throw new StartTrouble(
    "no-unprivileged-user",
    'PostgreSQL does not run as root and this machine has no user "layertrail" or "nobody". Start Layertrail as an ordinary user, or add one of these.',
  );
}

function askId(option: "-u" | "-g", name: string): number | undefined {
  try {
    const id = Number(
      execFileSync("id", [option, name], { encoding: "utf8", stdio: ["ignore", "pipe", "ignore"] }),
    );
    // macOS gives nobody the uid 4294967294, which the kernel and Node take as the signed number -2.
    return Number.isSafeInteger(id) ? id | 0 : undefined;
  } catch {
    return undefined;
  }
}

/** Tells whether a user may open a file or list a folder, along its whole path, by the permission bits alone. */
export function canReach(target: string, who: RunAs): boolean {
  const real = fs.realpathSync(target);
  for (let folder = path.dirname(real); ; folder = path.dirname(folder)) {
    if ((bitsFor(folder, who) & 0o1) === 0) return false;
    if (folder === path.dirname(folder)) break;
  }
  const needed = fs.statSync(real).isDirectory() ? 0o5 : 0o4;
  return (bitsFor(real, who) & needed) === needed;
}

function bitsFor(target: string, who: RunAs): number {
  const stat = fs.statSync(target);
  const shift = stat.uid === who.uid ? 6 : stat.gid === who.gid ? 3 : 0;
  return (stat.mode >> shift) & 0o7;
}
