import fs from "node:fs";
import os from "node:os";
import path from "node:path";
import { expect } from "vitest";
import type { House } from "../../server/cli/command.ts";
import { runCommandLine } from "../../server/cli/run-command-line.ts";

/** The command must do without a database. */
const HOUSE: House = {
  open: () => Promise.reject(new Error("a database was asked for")),
  progress: () => {},
  now: () => 0,
  address: "",
};

export interface CustodyFiles {
  readonly stays: string | Buffer;
  readonly holders: string;
  readonly cleanings?: string;
}

/** Writes `10` as ten o'clock on the day of the fire, and leaves other words as they are. */
const at = (text: string) =>
  text.replace(
    /(?<![\w:.-])(\d{1,2})(?![\w:.-])/g,
    (_, hour: string) => `2026-11-12T${hour.padStart(2, "0")}:00:00Z`,
  );
const table = (header: string, rows: readonly string[]) => [header, ...rows.map(at)].join("\n");
export const staysOf = (...rows: string[]) => table("piece,holder,from,to", rows);
export const holdersOf = (...rows: string[]) => table("holder,carries,cleaned", rows);
export const cleaningsOf = (...rows: string[]) => table("piece,at", rows);

/** Runs `trace` on files as the program does, and gives what it wrote and said. */
export async function runTrace(files: CustodyFiles, ...options: string[]) {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), "trace-files-"));
  const name = (what: string) => path.join(folder, `${what}.csv`);
  fs.writeFileSync(name("stays"), files.stays);
  fs.writeFileSync(name("holders"), files.holders);
  if (files.cleanings !== undefined) fs.writeFileSync(name("cleanings"), files.cleanings);
  const [out, err]: [string[], string[]] = [[], []];
  const inputs = ["--stays", name("stays"), "--holders", name("holders")];
  if (files.cleanings !== undefined) inputs.push("--cleanings", name("cleanings"));
  const code = await runCommandLine(
    ["trace", ...inputs, ...options, "--out", name("out")],
    HOUSE,
    { out: (line) => out.push(line), err: (line) => err.push(line) },
    () => undefined,
  );
  const written = fs.existsSync(name("out")) ? fs.readFileSync(name("out"), "utf8") : undefined;
  const said = err.join("\n").replaceAll(`${folder}/`, "");
  fs.rmSync(folder, { recursive: true });
  return { code, written, err: said, out: out.join("\n") };
}

/** The rows of the answer as "piece hour hops". */
export async function traced(files: CustodyFiles, ...options: string[]): Promise<string[]> {
  const { code, written, err } = await runTrace(
    files,
    ...options.map((option) => option.replace(/@(\d+)$/, (_, hour) => at(`@ ${hour}`).replace(" ", ""))),
  );
  expect({ code, err }).toEqual({ code: 0, err: "" });
  const [header, ...rows] = (written ?? "").trimEnd().split("\n");
  expect(header).toBe("piece,arrival,hops,path");
  return rows.map((row) => {
    const [piece, arrival, hops] = row.split(",");
    return `${piece} ${Number(/T(\d\d):00:00Z/.exec(arrival ?? "")?.[1])} ${hops}`;
  });
}
