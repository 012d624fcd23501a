import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import fs from "node:fs";
import http from "node:http";
import os from "node:os";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { expect } from "vitest";
import { buildPages } from "../../web/build-pages.mjs";

export const ROOT = path.resolve(fileURLToPath(import.meta.url), "../../..");

/** A Layertrail server that runs as a process of its own, as a person starts it. */
export interface RunningHouse {
  readonly child: ChildProcess;
  /** The first address that it printed. */
  readonly address: string;
  readonly said: () => string;
  /** Ends it as Ctrl-C does and gives its exit code. */
  readonly stop: () => Promise<number | null>;
  /** Kills it without a chance to tidy up. */
  readonly kill: () => Promise<void>;
}

export interface HouseOptions {
  readonly env?: Readonly<Record<string, string>>;
  /** Which program to start; the server itself unless said. */
  readonly program?: readonly string[];
}

let arePagesBuilt = false;

/** Starts a server on any free port unless PORT is given, and waits until it has printed its address. */
export async function startHouse(options: HouseOptions): Promise<RunningHouse> {
  const { child, said, ended } = spawnHouse(options);
  const address = await new Promise<string>((resolve, reject) => {
    child.stdout?.on("data", () => {
      const [found] = /https?:\/\/\S+/.exec(said()) ?? [];
      if (found) resolve(found);
    });
    void ended.then(() => reject(new Error(`Layertrail ended before it was ready: ${said()}`)));
  });
  const stop = () => {
    child.kill("SIGINT");
    return ended;
  };
  const kill = async () => {
    child.kill("SIGKILL");
    await ended;
  };
  return { child, address, said, stop, kill };
}

/** Starts a server that must not come up, and gives its exit code and what it said on standard error. */
export async function failToStart(
  options: HouseOptions,
): Promise<{ readonly code: number | null; readonly line: string }> {
  const { child, ended } = spawnHouse(options);
  let line = "";
  child.stderr?.on("data", (chunk) => {
    line += chunk;
  });
  const code = await ended;
  return { code, line: line.trimEnd() };
}

/** Asserts that a start failed with exactly one line of words for a person. */
export async function expectOneLine(options: HouseOptions, line: RegExp): Promise<void> {
  const failed = await failToStart(options);
  expect(failed.line).toMatch(line);
  expect(failed.line).toMatch(/^Layertrail did not start\. [^\n]+$/);
  expect(failed.code).toBe(1);
}

function spawnHouse({ env, program = ["server/main.ts"] }: HouseOptions) {
  if (!arePagesBuilt) {
    const failure = buildPages(process.execPath);
    if (failure) throw new Error(failure);
    arePagesBuilt = true;
  }
  const child = spawn(process.execPath, [...program], {
    cwd: ROOT,
    env: { PATH: process.env["PATH"], TMPDIR: os.tmpdir(), PORT: "0", ...env },
    stdio: ["ignore", "pipe", "pipe"],
  });
  let words = "";
  for (const stream of [child.stdout, child.stderr]) {
    stream.on("data", (chunk) => {
      words += chunk;
    });
  }
  const ended = once(child, "close").then(([code]) => code as number | null);
  return { child, said: () => words, ended };
}

/** Makes an empty folder, gives it to the work, and removes it after. */
export async function withFolder<T>(work: (folder: string) => Promise<T>): Promise<T> {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), "layertrail-house-"));
  try {
    return await work(folder);
  } finally {
    fs.rmSync(folder, { recursive: true, force: true });
  }
}

/** A plain GET with a Host header of one's own; gives the status, or 0 when nobody answers. */
export function getStatus(url: string, host?: string): Promise<number> {
  return new Promise((resolve) => {
    const request = http.get(url, { agent: false, headers: host ? { host } : {} }, (response) => {
      response.resume();
      resolve(response.statusCode ?? 0);
    });
    request.setTimeout(10_000, () => request.destroy());
    request.on("error", () => resolve(0));
  });
}

/** Asks again and again until the answer is the wanted one, for at most so many milliseconds; gives the last answer. */
export async function untilAnswer<T>(ask: () => Promise<T> | T, wanted: T, withinMs: number): Promise<T> {
  for (const deadline = Date.now() + withinMs; ; await new Promise((resolve) => setTimeout(resolve, 20))) {
    const answer = await ask();
    if (answer === wanted || Date.now() > deadline) return answer;
  }
}
