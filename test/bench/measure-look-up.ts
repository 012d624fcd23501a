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

/** Look-ups over HTTP: at a steady pace whatever the answers take, and as fast as 16 clients go. */
export async function measureLookUp(house: BenchHouse, seconds: number): Promise<Measured> {
  const paths = await scansOf(house);
  const ask = (how: AskingPlan["how"], lasting = seconds) =>
    startAsking(house, { paths, how, seconds: lasting }).result;
  await ask({ clients: BUDGET.clients }, 3);
  const steady = sumUp((await ask({ perSecond: BUDGET.perSecond })).waits);
  const fast = await ask({ clients: BUDGET.clients });
  const fastWaits = sumUp(fast.waits);
  return {
    part: "look-up",
    figures: [
      {
        what: `scan to answer, ${BUDGET.perSecond} a second, p99`,
        ...{ value: steady.p99, unit: "ms", target: { is: "at most", value: BUDGET.p99Ms } },
        note: saySpread(steady),
      },
      {
        what: `scans by ${BUDGET.clients} clients`,
        ...{ value: fastWaits.count / fast.seconds, unit: "/s" },
        target: { is: "at least", value: BUDGET.atLeastPerSecond },
        note: saySpread(fastWaits),
      },
    ],
  };
}
