import { sql } from "kysely";
import { type BenchHouse, startHand } from "./bench-house.ts";
import { type Measured, saySpread, sumUp } from "./figures.ts";
import type { Asked, AskingPlan } from "./hands/asking.ts";

const BUDGET = { perSecond: 100, p99Ms: 15, clients: 16, atLeastPerSecond: 1_000 };

/** Scans of tags from all over the register, as a bench sends them. */
export async function scansOf({ app }: BenchHouse, most = 5_000): Promise<string[]> {
  const { rows } = await sql<{ number: string }>`select number from numbered where names = 'tag'
    order by md5(number) limit ${most}`.execute(app);
  return rows.map(({ number }) => `/api/scan/${number}?mode=look%20up&via=wedge`);
}

/** Has a process of its own ask the running product; `end` stops it before its time. */
export function startAsking(house: BenchHouse, plan: Omit<AskingPlan, "address" | "cookie">) {
  const { address, cookie } = house;
  return startHand<Asked>("asking", { address, cookie, ...plan });
}

/** What the machine takes to carry a question to server and database and back when nothing is asked of either. */
const BARE = ["/api/health"];

/**
 * Look-ups over HTTP: at a steady pace whatever the answers take, and as fast as 16 clients go; beside each, the same
 * for a question that asks nothing, since machines differ.
 */
export async function measureLookUp(house: BenchHouse, seconds: number): Promise<Measured> {
  const scans = await scansOf(house);
  const ask = (how: AskingPlan["how"], lasting = seconds, paths: readonly string[] = scans) =>
    startAsking(house, { paths, how, seconds: lasting }).result;
  await ask({ clients: BUDGET.clients }, 3);
  const steady = sumUp((await ask({ perSecond: BUDGET.perSecond })).waits);
  const fast = await ask({ clients: BUDGET.clients });
  const fastWaits = sumUp(fast.waits);
  const bareSteady = sumUp((await ask({ perSecond: BUDGET.perSecond }, seconds / 2, BARE)).waits);
  const bare = await ask({ clients: BUDGET.clients }, seconds / 2, BARE);
  const bareRate = bare.waits.length / bare.seconds;
  return {
    part: "look-up",
    figures: [
      {
        what: `scan to answer, ${BUDGET.perSecond} a second, p99`,
        ...{ value: steady.p99, unit: "ms", target: { is: "at most", value: BUDGET.p99Ms } },
        note: saySpread(steady),
      },
      {
        what: "  beside it, a question that asks nothing, p99",
        ...{ value: bareSteady.p99, unit: "ms", note: saySpread(bareSteady) },
      },
      {
        what: `scans by ${BUDGET.clients} clients`,
        ...{ value: fastWaits.count / fast.seconds, unit: "/s" },
        target: { is: "at least", value: BUDGET.atLeastPerSecond },
        note: saySpread(fastWaits),
      },
      {
        what: `  of ${Math.round(bareRate)} a second that ask nothing`,
        ...{ value: (100 * fastWaits.count) / fast.seconds / bareRate, unit: "%" },
        note: saySpread(sumUp(bare.waits)),
      },
    ],
  };
}
