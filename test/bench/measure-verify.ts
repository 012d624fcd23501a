import { spawn } from "node:child_process";
import { once } from "node:events";
import { type BenchHouse, ROOT } from "./bench-house.ts";
import type { Measured } from "./figures.ts";

const BUDGET = { entries: 3_000_000, s: 300, mb: 500 };
/** What a short run is given at least, since it starts a process too. */
const SHORTEST_S = 10;
/** Has the process say at its end the most memory that it ever had, in kB. */
const TELL_MEMORY = `data:text/javascript,${encodeURIComponent(
  'process.on("exit", () => console.error("most memory", process.resourceUsage().maxRSS));',
)}`;

/** The command that a person runs, on all that the other parts have left in the ledger, generated and acted. */
export async function measureVerify({ appUrl }: BenchHouse): Promise<Measured> {
  const begun = performance.now();
  const child = spawn(
    process.execPath,
    ["--import", TELL_MEMORY, "server/layertrail.ts", "verify", "--json"],
    {
      cwd: ROOT,
      env: { PATH: process.env["PATH"], DATABASE_URL: appUrl },
      stdio: ["ignore", "pipe", "pipe"],
    },
  );
  let [out, err] = ["", ""];
  child.stdout.on("data", (chunk) => (out += chunk));
  child.stderr.on("data", (chunk) => (err += chunk));
  const [code] = await once(child, "close");
  const seconds = (performance.now() - begun) / 1_000;
  if (code !== 0) throw new Error(`verify ended with ${code}: ${out.slice(0, 2_000)} ${err.slice(-2_000)}`);
  const { entries, acts } = JSON.parse(out) as { entries: number; acts: number };
  const megabytes = Number(/most memory (\d+)/.exec(err)?.[1]) / 1_000;
  const most = Math.max(SHORTEST_S, (BUDGET.s * entries) / BUDGET.entries);
  return {
    part: "verify",
    figures: [
      {
        ...{ what: `verify of ${entries} entries in ${acts} acts`, value: seconds, unit: "s" },
        target: { is: "at most", value: Math.round(most) },
        note: `${Math.round(entries / seconds)} entries a second; the budget is for as many entries`,
      },
      {
        ...{ what: "its memory at most", value: megabytes, unit: "MB" },
        target: { is: "at most", value: BUDGET.mb },
      },
    ],
  };
}
