import { uuidV7 } from "../../server/ledger/uuid-v7.ts";
import type { BenchHouse } from "./bench-house.ts";
import { type Figure, type Measured, saySpread, sumUp, type Waits } from "./figures.ts";
import { gearSheet } from "./gear-sheet.ts";
import { openProduct, type ProductClient } from "./hands/product-client.ts";
import { scansOf, startAsking } from "./measure-look-up.ts";

const BUDGET = { rows: 20_000, importS: 60, p99Ms: 60 };
/** What a short run is given at least, since it starts threads too. */
const SHORTEST_S = 10;
const PER_SECOND = 100;
/** No run of long work may hold up the whole benchmark. */
const LONGEST_MS = 240_000;

/** How much long work there is beside the look-ups. */
export interface LongWork {
  readonly rows: number;
  readonly tags: number;
}

/** Look-ups at a steady pace while the running server brings in a file, and while it draws a large run of tags. */
export async function measureBeside(house: BenchHouse, { rows, tags }: LongWork): Promise<Measured> {
  const client = openProduct(house);
  try {
    const brought = await askBeside(house, () => bringIn(client, rows));
    const drawn = await askBeside(house, () => drawTags(client, tags));
    return {
      part: "look-ups beside long work",
      figures: [
        p99Beside(`an import of ${rows} rows`, brought.waits),
        {
          ...{ what: `import of ${rows} rows meanwhile`, value: brought.seconds, unit: "s" },
          target: { is: "at most", value: Math.max(SHORTEST_S, (BUDGET.importS * rows) / BUDGET.rows) },
          note: "read, previewed and written; the budget is for as many rows",
        },
        p99Beside(`a run of ${tags} tags`, drawn.waits),
        {
          ...{ what: `run of ${tags} tags meanwhile`, value: drawn.seconds, unit: "s" },
          note: "numbers drawn, PDF made and read back",
        },
      ],
    };
  } finally {
    client.close();
  }
}

function p99Beside(what: string, waits: Waits): Figure {
  return {
    ...{ what: `scan to answer beside ${what}, p99`, value: waits.p99, unit: "ms" },
    target: { is: "at most", value: BUDGET.p99Ms },
    note: saySpread(waits),
  };
}

async function askBeside(
  house: BenchHouse,
  work: () => Promise<void>,
): Promise<{ waits: Waits; seconds: number }> {
  const paths = await scansOf(house);
  const asking = startAsking(house, { paths, how: { perSecond: PER_SECOND }, seconds: LONGEST_MS / 1_000 });
  const begun = performance.now();
  try {
    await work();
  } finally {
    asking.end();
  }
  const seconds = (performance.now() - begun) / 1_000;
  return { waits: sumUp((await asking.result).waits), seconds };
}

async function bringIn(client: ProductClient, rows: number): Promise<void> {
  const contentBase64 = gearSheet(rows, `B${Date.now()}`).toString("base64");
  const file = { name: "bench.csv", contentBase64 };
  const { id, job } = JSON.parse(await client.post("/api/imports/pieces", file)) as {
    id: string;
    job: string;
  };
  await untilDone(client, job);
  const seen = JSON.parse(await client.get(`/api/imports/${id}`)) as {
    preview: { digest: string; accepted: number };
  };
  const { digest, accepted } = seen.preview;
  if (accepted !== rows) throw new Error(`${accepted} of ${rows} rows can come in.`);
  await startAndWait(client, `/api/imports/${id}/accept`, { digest });
}

async function drawTags(client: ProductClient, tags: number): Promise<void> {
  const run = uuidV7(Date.now());
  const choice = { run, spare: tags, stock: "roll", dpi: "203", ackCautions: true };
  await startAndWait(client, "/api/print-runs", choice);
}

async function startAndWait(client: ProductClient, path: string, command: object): Promise<void> {
  const at = Date.now();
  const now = new Date(at).toISOString();
  const sent = { id: uuidV7(at), device: "bench", deviceSeq: 1, appBuild: "bench", at: now, atOffsetMin: 0 };
  const started = await client.post(path, { ...sent, sentAt: now, command });
  await untilDone(client, (JSON.parse(started) as { job: string }).job);
}

async function untilDone(client: ProductClient, job: string): Promise<void> {
  for (const deadline = performance.now() + LONGEST_MS; ; await new Promise((go) => setTimeout(go, 100))) {
    const { state, reasons } = JSON.parse(await client.get(`/api/jobs/${job}`)) as {
      state: string;
      reasons: unknown;
    };
    if (state === "done") return;
    const isGoing = state === "waiting" || state === "running";
    if (!isGoing || performance.now() > deadline)
      throw new Error(`A job is ${state}: ${JSON.stringify(reasons)}`);
  }
}
