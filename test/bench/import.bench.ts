import type { Db } from "../../server/cases/database-handle.ts";
import { findBroughtIn, findUpload, keepUpload } from "../../server/cases/import-record.ts";
import { drawId } from "../../server/cases/import-register.ts";
import { findJob } from "../../server/cases/job-record.ts";
import type { AccountId, ActId, Uuid } from "../../server/domain/ids.ts";
import { PIECE_COLUMNS, type PieceField } from "../../server/domain/intake/columns.ts";
import { writeCsvFile } from "../../server/domain/intake/csv-write.ts";
import type { ImportPreview } from "../../server/domain/intake/import-preview.ts";
import type { Instant } from "../../server/domain/time.ts";
import { hashFile } from "../../server/intake/file-hash.ts";
import type { JobOrder } from "../../server/jobs/job-order.ts";
import { openJobs } from "../../server/jobs/open-jobs.ts";

export interface ImportFigures {
  readonly rows: number;
  readonly fileBytes: number;
  /** From the order to its end on record, the start of the thread included. */
  readonly readMs: number;
  readonly writeMs: number;
  readonly asked: number;
  /** For five seconds before the import. */
  readonly aloneP99Ms: number;
  /** Of what was asked beside the import, open loop. */
  readonly askedP99Ms: number;
  readonly askedMaxMs: number;
  readonly processMb: number;
}

/** Budgets: 20,000 rows in under 60 s, and look-ups beside it within 60 ms at p99. */
export const IMPORT_BUDGET = { rows: 20_000, ms: 60_000, askedP99Ms: 60 };

export interface ImportBench {
  readonly db: Db;
  readonly databaseUrl: string;
  /** One question to the running product, asked `askedPerSecond` times a second while the import runs. */
  readonly ask: () => Promise<unknown>;
  readonly askedPerSecond?: number;
  readonly rows?: number;
}

/** A sheet of pieces as departments keep them, one row a piece. Serials are new in each run. */
function sheet(rows: number, run: string): Buffer {
  const row = (n: number): readonly string[] => {
    const cells: Partial<Record<PieceField, string>> = {
      kind: n % 2 === 0 ? "Coat outer shell" : "Coat liner",
      maker: "Tarnholt",
      modelName: n % 2 === 0 ? "Ridge 40" : "RL 4",
      size: `${40 + (n % 12)} 32 R`,
      serial: `${run}-${n}`,
      lot: `L-${n % 40}`,
      madeOn: `20${10 + (n % 15)}-0${1 + (n % 9)}`,
      price: "1850.00",
      foreignCode: `${run}.${n}`,
      note: n % 10 === 0 ? "cuff mended, look again" : "",
    };
    return PIECE_COLUMNS.map(({ field }) => cells[field] ?? "");
  };
  const headers = PIECE_COLUMNS.map(({ header }) => header);
  return Buffer.from(writeCsvFile([headers, ...Array.from({ length: rows }, (_, n) => row(n))]));
}

/** Brings in a sheet as the server does it, in its thread, while questions are asked beside it at a steady pace. */
export async function measureImport(bench: ImportBench): Promise<ImportFigures> {
  const { db, databaseUrl, rows = IMPORT_BUDGET.rows, askedPerSecond = 100 } = bench;
  const threadFile = new URL("../../server/job-thread.ts", import.meta.url);
  const onFault = (fault: unknown) => {
    throw fault;
  };
  const jobs = openJobs({ db, databaseUrl, now: Date.now, threadFile, onFault });
  const by = drawId<AccountId>(Date.now());
  const bytes = sheet(rows, `B${Date.now()}`);
  const upload = drawId<Uuid>(Date.now());
  const sha256 = Buffer.from(hashFile(bytes), "hex");
  await keepUpload(db, { id: upload, what: "pieces", name: "bench.csv", by, sha256, bytes });
  const alone = askSteadily(bench.ask, askedPerSecond);
  await new Promise((resolve) => setTimeout(resolve, 5_000));
  const aloneP99Ms = p99(await alone.stop());
  const asking = askSteadily(bench.ask, askedPerSecond);
  try {
    const readMs = await runToEnd(db, jobs, { what: "read file", about: upload }, by);
    const preview = (await findUpload(db, upload))?.preview as ImportPreview | undefined;
    if (!preview) throw new Error("The file was read, and no preview was kept.");
    const { digest } = preview;
    const at = Date.now() as Instant;
    const envelope = {
      ...{ id: drawId<ActId>(at), by, role: "program manager" as const, device: "bench", deviceSeq: 1 },
      ...{ appBuild: "bench", at, atOffsetMin: 0, sentAt: at },
    } as const;
    const order: JobOrder = { what: "bring in file", about: upload, digest, envelope };
    const writeMs = await runToEnd(db, jobs, order, by);
    const file = await findBroughtIn(db, sha256);
    if (file?.accepted !== rows) throw new Error(`${file?.accepted} of ${rows} rows came in.`);
    const waits = await asking.stop();
    return {
      ...{ rows, fileBytes: bytes.length, readMs, writeMs, asked: waits.length, aloneP99Ms },
      askedP99Ms: p99(waits),
      askedMaxMs: Math.max(...waits),
      processMb: Math.round(process.memoryUsage().rss / 1e6),
    };
  } finally {
    await asking.stop();
    await jobs.close();
  }
}

async function runToEnd(
  db: Db,
  jobs: ReturnType<typeof openJobs>,
  order: JobOrder,
  by: AccountId,
): Promise<number> {
  const started = performance.now();
  const id = await jobs.start(order, by);
  for (;;) {
    const job = id && (await findJob(db, id));
    if (job?.state === "done") return performance.now() - started;
    if (job?.endedAt) throw new Error(`${order.what}: ${JSON.stringify(job.reasons)}`);
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
}

function p99(waits: readonly number[]): number {
  return waits.toSorted((a, b) => a - b)[Math.floor(waits.length * 0.99)] ?? 0;
}

/** Asks at a steady pace whether or not the last question is answered; a wait counts from when it was due. */
function askSteadily(ask: () => Promise<unknown>, perSecond: number) {
  const waits: number[] = [];
  const open = new Set<Promise<unknown>>();
  let due = performance.now();
  const timer = setInterval(() => {
    for (; due <= performance.now(); due += 1000 / perSecond) {
      const from = due;
      const asked = ask().then(() => waits.push(performance.now() - from));
      open.add(asked);
      void asked.finally(() => open.delete(asked));
    }
  }, 1);
  return {
    async stop(): Promise<number[]> {
      clearInterval(timer);
      await Promise.all(open);
      return waits;
    },
  };
}
