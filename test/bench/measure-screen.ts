import { sql } from "kysely";
import type { Page } from "playwright-core";
import { launchBrowser, SIZES, visit } from "../kit/open-browser.ts";
import { scanByWedge } from "../kit/scan-by-wedge.ts";
import type { BenchHouse } from "./bench-house.ts";
import { type Figure, type Measured, saySpread, sumUp } from "./figures.ts";

declare global {
  interface Window {
    /** From the last symbol of each scan to the picture that shows its answer, in milliseconds. */
    scanWaits: number[];
  }
}

const BUDGET_P95_MS = 100;
const SCANS = 40;
/** The first ones load the drawings and warm up the connections. */
const ASIDE = 5;

/** Wedge scans in a real browser on the running product, from the last symbol to the answer as it is painted. */
export async function measureScreen(house: BenchHouse): Promise<Measured> {
  const numbers = await numbersOf(house);
  const browser = await launchBrowser();
  try {
    const [size] = SIZES;
    const { page, leave } = await visit(browser, size, house.address);
    await signIn(page, house);
    for (const [index, number] of numbers.entries()) {
      await scanByWedge(page, number);
      await page.waitForFunction((count) => window.scanWaits.length === count, index + 1);
    }
    const spread = sumUp((await page.evaluate(() => window.scanWaits)).slice(ASIDE));
    await leave();
    const figure: Figure = {
      ...{ what: `scan to answer in the browser, ${size.at}, p95`, value: spread.p95, unit: "ms" },
      target: { is: "at most", value: BUDGET_P95_MS },
      note: saySpread(spread),
    };
    return { part: "screen", figures: [figure] };
  } finally {
    await browser.close();
  }
}

async function numbersOf({ app }: BenchHouse): Promise<string[]> {
  const { rows } = await sql<{ number: string }>`select number from numbered where names = 'tag'
    order by md5(number || 'screen') limit ${SCANS + ASIDE}`.execute(app);
  return rows.map(({ number }) => number);
}

async function signIn(page: Page, { address, cookie }: BenchHouse): Promise<void> {
  const [name = "", value = ""] = cookie.split(/=(.*)/);
  await page.context().addCookies([{ name, value, url: address }]);
  await page.addInitScript(watchScans);
  await page.reload();
  await page.getByRole("heading", { level: 1, name: "Look up" }).waitFor();
}

/**
 * Runs in the page before its own script, which keeps a scan's keys to itself. The spoken text is drawn with the
 * answer, and a task after the next frame comes when that is painted.
 */
function watchScans(): void {
  window.scanWaits = [];
  let lastSymbol: number | undefined;
  const note = ({ key }: KeyboardEvent) => {
    if (key !== "Enter") lastSymbol = performance.now();
  };
  window.addEventListener("keydown", note, { capture: true });
  const painted = (from: number) => window.scanWaits.push(performance.now() - from);
  new MutationObserver(() => {
    const from = lastSymbol;
    if (from === undefined) return;
    lastSymbol = undefined;
    requestAnimationFrame(() => setTimeout(painted, 0, from));
  }).observe(document, { subtree: true, attributes: true, attributeFilter: ["data-count"] });
}
