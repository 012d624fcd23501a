import type { BenchFolder } from "./bench-house.ts";
import { startServer } from "./bench-house.ts";
import type { Figure, Measured } from "./figures.ts";
import { openProduct } from "./hands/product-client.ts";

const BUDGET_S = 3;
const STARTS = 3;

/** From the command that a person types to the first page that is answered, on a folder that holds a department. */
export async function measureStart({ dataDir }: BenchFolder): Promise<Measured> {
  const seconds: number[] = [];
  for (let round = 0; round < STARTS; round += 1) {
    const begun = performance.now();
    const server = startServer(["start.mjs"], { DATA_DIR: dataDir });
    try {
      const client = openProduct({ address: await server.address, cookie: "" });
      await client.get("/");
      seconds.push((performance.now() - begun) / 1_000);
      client.close();
    } finally {
      await server.stop();
    }
  }
  const figure: Figure = {
    ...{
      what: `start on an existing database, slowest of ${STARTS}`,
      value: Math.max(...seconds),
      unit: "s",
    },
    target: { is: "at most", value: BUDGET_S },
    note: `${seconds.map((each) => each.toFixed(2)).join(", ")} s, its database included`,
  };
  return { part: "start", figures: [figure] };
}
