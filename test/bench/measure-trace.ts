import fs from "node:fs";
import { sql } from "kysely";
import type { HistoryColumns } from "../../server/domain/tracing/custody-history.ts";
import { cutEpisodes } from "../../server/domain/tracing/cut-episodes.ts";
import { traceHistory, walkNodes } from "../../server/domain/tracing/trace-history.ts";
import type { TraceView } from "../../server/domain/tracing/trace-view.ts";
import { type BenchHouse, findFolder, openHouse } from "./bench-house.ts";
import { type Figure, type Measured, saySpread, sumUp, type Waits } from "./figures.ts";
import { openProduct } from "./hands/product-client.ts";
import { PLANTED_CONTACTS, type Planted, plantTrace } from "./plant-trace.ts";

/** Sets of a department a tenth of the large one's size: 30,000 pieces and 300,000 entries. */
const SMALL_SETS = 3_334;
const BUDGET = { p95Ms: 300, growth: 1.5, memoryMs: 1_000, rowsAnAnswer: 3 };
const TIMES = 40;
const FOLLOWED = ["closed", "shared"] as const;

interface OnDepartment {
  readonly waits: Waits;
  readonly rowsRead: number;
  readonly answerRows: number;
  readonly plainMs: number;
  readonly wholeMs: number;
  readonly stays: number;
}

/**
 * A trace that finds the same thousand contacts in a department of this size and in one of a tenth, end to end; beside it,
 * on the same rows, a plain recursive query and a walk over everything; and a walk in memory over a million stays.
 */
export async function measureTrace(house: BenchHouse): Promise<Measured> {
  const large = await onDepartment(house);
  const folder = await findFolder(SMALL_SETS);
  let small: OnDepartment;
  try {
    const other = await openHouse(folder);
    small = await onDepartment(other).finally(other.close);
  } finally {
    fs.rmSync(folder.dataDir, { recursive: true, force: true });
  }
  return { part: "trace", figures: [...figuresOf(large, small, house), ...memoryFigures()] };
}

function figuresOf(large: OnDepartment, small: OnDepartment, { register }: BenchHouse): Figure[] {
  const atMost = (value: number) => ({ is: "at most" as const, value });
  return [
    {
      ...{
        what: `${PLANTED_CONTACTS} contacts out of ${register.entries} entries, p95`,
        value: large.waits.p95,
      },
      ...{ unit: "ms", target: atMost(BUDGET.p95Ms), note: saySpread(large.waits) },
    },
    {
      ...{ what: "  the same out of a tenth of them, p95", value: small.waits.p95 },
      ...{ unit: "ms", note: saySpread(small.waits) },
    },
    {
      ...{ what: "  growth from a tenth to all, of 100 %, by p50", unit: "%" as const },
      ...{ value: (100 * large.waits.p50) / small.waits.p50, target: atMost(100 * BUDGET.growth) },
    },
    {
      ...{
        what: "rows read of 100 rows of the answer",
        unit: "%" as const,
        target: atMost(100 * BUDGET.rowsAnAnswer),
      },
      ...{ value: (100 * large.rowsRead) / large.answerRows },
      note: `${large.rowsRead} read here, ${small.rowsRead} out of a tenth`,
    },
    {
      what: "beside it, a plain recursive query",
      value: large.plainMs,
      unit: "ms",
      note: `${small.plainMs.toFixed(0)} ms out of a tenth`,
    },
    {
      ...{ what: "beside it, reading every stay and walking them", value: large.wholeMs, unit: "ms" },
      note: `${large.stays} stays; ${small.wholeMs.toFixed(0)} ms out of a tenth`,
    },
  ];
}

async function onDepartment(house: BenchHouse): Promise<OnDepartment> {
  const planted = await plantTrace(house);
  await sql`analyze stay, piece, place, piece_cleaned, act, entry`.execute(house.owner);
  const client = openProduct(house);
  const body = {
    start: { kind: "pieces", pieces: [planted.root], at: new Date(planted.at).toISOString() },
    direction: "forward",
    hops: 2,
  };
  const ask = async () => JSON.parse(await client.post("/api/trace", body)) as TraceView;
  for (let warm = 0; warm < 5; warm++) await ask();
  const waits: number[] = [];
  let view = await ask();
  for (let time = 0; time < TIMES; time++) {
    const from = performance.now();
    view = await ask();
    waits.push(performance.now() - from);
  }
  client.close();
  if (view.contacts.length !== PLANTED_CONTACTS) {
    throw new Error(`${view.contacts.length} contacts were found, ${PLANTED_CONTACTS} were planted.`);
  }
  return {
    waits: sumUp(waits),
    rowsRead: view.rowsRead,
    answerRows: view.threads.reduce((rows, { stays }) => rows + stays.length, 0),
    plainMs: await plainQuery(house, planted),
    ...(await readEverything(house, planted)),
  };
}

/** What somebody would write first: states of piece and moment, joined again and again. */
async function plainQuery({ app }: BenchHouse, { root, at }: Planted): Promise<number> {
  const [begin, end] = [new Date(at), new Date(at + 30 * 86_400_000)];
  const from = performance.now();
  const { rows } = await sql<{ pieces: string }>`with recursive reached (piece, at, hops) as (
      select ${root}::uuid, ${begin}::timestamptz, 0
      union
      select t.piece, greatest(r.at, s.from_at, t.from_at), r.hops + 1
      from reached r join stay s on s.piece = r.piece and coalesce(s.to_at, 'infinity') >= r.at and s.from_at <= ${end}
        join place p on p.id = s.holder and p.carries <> 'apart'
        join stay t on t.holder = s.holder and t.from_at <= ${end}
          and coalesce(t.to_at, 'infinity') >= greatest(r.at, s.from_at)
      where r.hops < 2)
    select count(distinct piece) - 1 as pieces from reached`.execute(app);
  if (Number(rows[0]?.pieces) !== PLANTED_CONTACTS)
    throw new Error(`The plain query found ${rows[0]?.pieces}.`);
  return performance.now() - from;
}

/** Reads all stays and walks them, as a program without questions would. */
async function readEverything({ app }: BenchHouse, { root, at }: Planted) {
  const from = performance.now();
  const { rows: stays } = await sql<{ piece: string; holder: string; from: number; to: number | null }>`
    select piece, coalesce(holder::text, holder_kind) as holder, extract(epoch from from_at)::float8 * 1000 as from,
      extract(epoch from to_at)::float8 * 1000 as to from stay`.execute(app);
  const { rows: places } = await sql<{ id: string; carries: "closed" | "shared" | "apart" }>`
    select id, carries from place`.execute(app);
  const traced = traceHistory(
    {
      stays: stays.map(({ to, ...stay }) => (to === null ? stay : { ...stay, to })),
      holders: places.map((place) => ({ ...place, cleanings: [] })),
      cleanings: [],
    },
    {
      roots: [{ piece: root, at }],
      ...{ direction: "forward", hops: 2, until: at + 30 * 86_400_000, carriers: FOLLOWED },
    },
  );
  const found = "contacts" in traced ? traced.contacts.length : 0;
  if (found !== PLANTED_CONTACTS) throw new Error(`The walk over everything found ${found}.`);
  return { wholeMs: performance.now() - from, stays: stays.length };
}

const [MILLION, PIECES, HOLDERS] = [1_000_000, 30_000, 3_000];

/** A million stays of 30,000 pieces at 3,000 holders, 60,000 cleanings, walked without any cut. */
function memoryFigures(): Figure[] {
  const columns = aMillionStays();
  const took: number[] = [];
  let reached = 0;
  for (let time = 0; time < 5; time++) {
    const from = performance.now();
    const nodes = cutEpisodes(columns, FOLLOWED);
    const roots = [{ episode: 100, at: nodes.episodes.from[100] ?? 0 }];
    const walk = walkNodes(nodes, { roots: [], direction: "forward", carriers: FOLLOWED }, roots);
    took.push(performance.now() - from);
    reached = walk.ranked.filter((label) => label >= 0).length;
  }
  const spread = sumUp(took);
  return [
    {
      ...{
        what: "walk in memory over 1,000,000 stays, cutting them included, p50",
        value: spread.p50,
        unit: "ms",
      },
      ...{
        target: { is: "at most", value: BUDGET.memoryMs },
        note: `${reached} of ${PIECES} pieces reached`,
      },
    },
  ];
}

function aMillionStays(): HistoryColumns {
  let seed = 7;
  const below = (most: number) => {
    seed = (Math.imul(seed, 1_103_515_245) + 12_345) & 0x7fffffff;
    return seed % most;
  };
  const carries = Array.from(
    { length: HOLDERS },
    (_, index) => (["closed", "shared", "apart"] as const)[index % 3] ?? "apart",
  );
  const [piece, holder] = [new Int32Array(MILLION), new Int32Array(MILLION)];
  const [from, to, clock] = [new Float64Array(MILLION), new Float64Array(MILLION), new Float64Array(PIECES)];
  for (let index = 0; index < MILLION; index++) {
    const owner = index % PIECES;
    const begins = clock[owner] ?? 0;
    const ends = begins + 1_000 + below(60_000_000);
    clock[owner] = ends;
    piece[index] = owner;
    holder[index] = below(HOLDERS);
    from[index] = begins;
    to[index] = index >= MILLION - PIECES ? Number.POSITIVE_INFINITY : ends;
  }
  return {
    ...{ pieces: PIECES, piece, holder, from, to, carries },
    holderCleanings: carries.map((_, index) => (index % 5 === 0 ? [500_000_000, 900_000_000] : [])),
    cleaningPiece: Int32Array.from({ length: 2 * PIECES }, (_, index) => index % PIECES),
    cleaningAt: Float64Array.from({ length: 2 * PIECES }, () => below(1_000_000_000)),
  };
}
