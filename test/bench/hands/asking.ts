import { hand } from "./hand.ts";
import { openProduct, type ProductAddress } from "./product-client.ts";

/** Questions to the running product over HTTP, from a process that does nothing else. */
export interface AskingPlan extends ProductAddress {
  /** Asked in turn, over and over. */
  readonly paths: readonly string[];
  /** A pace that does not wait for answers, or so many clients of which each does. */
  readonly how: { readonly perSecond: number } | { readonly clients: number };
  /** At most; `end` may come before. */
  readonly seconds: number;
}

/** How long each question took, in milliseconds. At a steady pace that counts from when it was due. */
export interface Asked {
  readonly waits: readonly number[];
  readonly seconds: number;
}

type Ask = () => Promise<unknown>;

await hand<AskingPlan, Asked>(async ({ paths, how, seconds, ...product }, isEnding) => {
  const client = openProduct(product);
  let next = 0;
  const ask = () => client.get(paths[next++ % paths.length] ?? "/");
  const started = performance.now();
  const isOver = () => isEnding() || performance.now() - started >= seconds * 1_000;
  const waits = await ("clients" in how
    ? askByTurns(ask, how.clients, isOver)
    : askSteadily(ask, how.perSecond, isOver));
  client.close();
  return { waits, seconds: (performance.now() - started) / 1_000 };
});

async function askByTurns(ask: Ask, clients: number, isOver: () => boolean): Promise<number[]> {
  const waits: number[] = [];
  const askOn = async () => {
    while (!isOver()) {
      const from = performance.now();
      await ask();
      waits.push(performance.now() - from);
    }
  };
  await Promise.all(Array.from({ length: clients }, askOn));
  return waits;
}

/** A timer that comes late asks at once for all that fell due meanwhile, and its lateness counts. */
async function askSteadily(ask: Ask, perSecond: number, isOver: () => boolean): Promise<number[]> {
  const waits: number[] = [];
  const open: Promise<unknown>[] = [];
  for (let due = performance.now(); !isOver(); ) {
    for (; due <= performance.now(); due += 1_000 / perSecond) {
      const from = due;
      open.push(ask().then(() => waits.push(performance.now() - from)));
    }
    await new Promise((resolve) => setTimeout(resolve, Math.max(1, due - performance.now())));
  }
  await Promise.all(open);
  return waits;
}
