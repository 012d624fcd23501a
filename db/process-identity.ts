import { execFileSync } from "node:child_process";
import fs from "node:fs";

/**
 * Tells when a process started, as a text that no other process with the same pid can have.
 * Undefined when no such process lives; a zombie does not count as living, because it holds nothing any more.
 */
export function startOfProcess(pid: number): string | undefined {
  if (!Number.isSafeInteger(pid) || pid <= 0) return undefined;
  if (process.platform === "linux") return startOnLinux(pid);
  try {
    if (process.platform === "win32") return startOnWindows(pid);
    const line = execFileSync("ps", ["-o", "stat=,lstart=", "-p", String(pid)], { encoding: "utf8" }).trim();
    return line === "" || line.startsWith("Z") ? undefined : line.replace(/^\S+\s+/, "");
  } catch {
    return undefined;
  }
}

function startOnLinux(pid: number): string | undefined {
  try {
    const stat = fs.readFileSync(`/proc/${pid}/stat`, "latin1");
    // The name in parentheses may itself hold spaces and parentheses; what follows the last one is regular.
    const fields = stat.slice(stat.lastIndexOf(")") + 2).split(" ");
    const state = fields[0];
    const startTicks = fields[19];
    if (state === "Z" || state === "X" || startTicks === undefined) return undefined;
    const boot = fs.readFileSync("/proc/sys/kernel/random/boot_id", "latin1").trim();
    return `${boot}/${startTicks}`;
  } catch {
    return undefined;
  }
}

function startOnWindows(pid: number): string | undefined {
  const query = `(Get-Process -Id ${pid} -ErrorAction Stop).StartTime.ToFileTimeUtc()`;
  const line = execFileSync("powershell", ["-NoProfile", "-Command", query], {
    encoding: "utf8",
    stdio: ["ignore", "pipe", "ignore"],
  }).trim();
  return line === "" ? undefined : line;
}

/** Tells whether the process runs the PostgreSQL server in this cluster folder, and is not a later one with its pid. */
export function isPostmasterOf(pid: number, clusterDir: string): boolean {
  if (startOfProcess(pid) === undefined) return false;
  if (process.platform === "linux") {
    try {
      // PostgreSQL makes the cluster its working directory.
      return fs.readlinkSync(`/proc/${pid}/cwd`) === fs.realpathSync(clusterDir);
    } catch {
      return false;
    }
  }
  if (process.platform === "win32") return true;
  try {
    const command = execFileSync("ps", ["-o", "comm=", "-p", String(pid)], { encoding: "utf8" });
    return command.includes("postgres");
  } catch {
    return false;
  }
}

/** Waits for a time in milliseconds. A background pause does not keep the process alive. */
export function pause(ms: number, options?: { readonly isBackground?: boolean }): Promise<void> {
  return new Promise((resolve) => {
    const timer = setTimeout(resolve, ms);
    if (options?.isBackground) timer.unref();
  });
}
