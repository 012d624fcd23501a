import { existsSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { type Browser, chromium, type Page } from "playwright-core";
import { expect } from "vitest";

declare global {
  interface Window {
    /** Every text that the live region of the bench has held, in order. */
    spoken: string[];
    axe: { run: (root: Document) => Promise<{ violations: Violation[] }> };
  }
}
interface Violation {
  readonly id: string;
  readonly help: string;
  readonly nodes: readonly { readonly target: readonly unknown[]; readonly failureSummary?: string }[];
}

/** The tablet at the bench and the phone in the hand. */
export const SIZES = [
  { at: "1280 × 800", width: 1280, height: 800 },
  { at: "390 × 844", width: 390, height: 844 },
] as const;
export type Size = (typeof SIZES)[number];

/** Everything here is waited for, never slept through; a loaded machine may take its time. */
export const PATIENCE_MS = 40_000;

const INSTALLED = [
  "/usr/bin/chromium",
  "/usr/bin/chromium-browser",
  "/usr/bin/google-chrome",
  "/usr/bin/google-chrome-stable",
  "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
];
const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

/** Finds CHROME_PATH, else an installed Chromium or Chrome; without one, says what to set. */
function chromePath(): string {
  const found = process.env["CHROME_PATH"] ?? INSTALLED.find((path) => existsSync(path));
  if (!found) throw new Error("No Chromium or Chrome is installed. Set CHROME_PATH to one.");
  return found;
}

export function launchBrowser(args: readonly string[] = []): Promise<Browser> {
  return chromium.launch({ executablePath: chromePath(), args: ["--no-sandbox", ...args] });
}

/** A person at a screen of their own: a page, and what went wrong on it. */
export interface Visitor {
  readonly page: Page;
  /** Errors of the page and its console, without the loads that a refusal is told by. */
  readonly faults: readonly string[];
  /** Leaves, and fails where something went wrong on the page. */
  readonly leave: () => Promise<void>;
}

/** How the server says that nobody is signed in, or that an act was refused: the browser reports both as errors. */
const EXPECTED = /^Failed to load resource: the server responded with a status of (401|403|409|422) /;

/** Opens a screen of a size in a context of its own: other cookies, other storage. */
export async function visit(
  browser: Browser,
  size: Size,
  address: string,
  options: { readonly permissions?: string[] } = {},
): Promise<Visitor> {
  const { width, height } = size;
  const context = await browser.newContext({
    ...{ viewport: { width, height }, reducedMotion: "reduce", colorScheme: "light" },
    ...options,
  });
  context.setDefaultTimeout(PATIENCE_MS);
  await context.addInitScript(keepSpoken);
  const page = await context.newPage();
  const faults: string[] = [];
  page.on("pageerror", (error) => faults.push(String(error)));
  page.on("console", (message) => {
    if (message.type() !== "error" || EXPECTED.test(message.text())) return;
    faults.push(`${message.text()} ${message.location().url}`);
  });
  await page.goto(address);
  const leave = async () => {
    await context.close();
    expect(faults, "errors on the page").toEqual([]);
  };
  return { page, faults, leave };
}

/** Runs in the page: keeps each text of the live region, as a screen reader would get it. */
function keepSpoken(): void {
  window.spoken = [];
  let last = "";
  new MutationObserver(() => {
    const region = document.querySelector<HTMLElement>("p[data-count]");
    const count = region?.dataset["count"] ?? "0";
    if (!region || count === "0" || count === last) return;
    last = count;
    window.spoken.push(region.textContent ?? "");
  }).observe(document, { subtree: true, childList: true, attributes: true, characterData: true });
}

/** Does something and waits until the live region says what is expected; gives the whole text. */
export async function hears(page: Page, doing: () => Promise<unknown>, expected: RegExp): Promise<string> {
  const from = await page.evaluate(() => window.spoken.length);
  await doing();
  const wanted = { from, source: expected.source };
  try {
    const heard = await page.waitForFunction(
      ({ from, source }) => window.spoken.slice(from).find((text) => new RegExp(source).test(text)),
      wanted,
    );
    return String(await heard.jsonValue());
  } catch (cause) {
    const heard = await page.evaluate((from) => window.spoken.slice(from), from);
    throw new Error(`Not heard: ${expected}. Heard: ${JSON.stringify(heard)}`, { cause });
  }
}

/** Walks with Tab until the element has the focus; fails where the keyboard cannot reach it. */
export async function tabTo(
  page: Page,
  name: string | RegExp,
  role: "button" | "link" | "radio" | "checkbox" | "textbox",
): Promise<void> {
  const wanted = page.getByRole(role, { name, ...(typeof name === "string" ? { exact: true } : {}) }).first();
  await wanted.waitFor();
  for (let steps = 0; steps < 60; steps += 1) {
    if (await wanted.evaluate((element) => element === document.activeElement)) return;
    await page.keyboard.press("Tab");
  }
  throw new Error(`The keyboard does not reach ${role} ${name}.`);
}

/** Asserts that axe-core finds nothing on the screen, in light and in dark. */
export async function expectAccessible(page: Page): Promise<void> {
  await page.evaluate(AXE);
  for (const colorScheme of ["dark", "light"] as const) {
    await page.emulateMedia({ colorScheme });
    const found = await page.evaluate(async () => (await window.axe.run(document)).violations);
    const told = found.flatMap(({ id, nodes }) =>
      nodes.map(({ target, failureSummary }) => `${id} at ${target.join(" ")}: ${failureSummary ?? ""}`),
    );
    expect(told, `axe-core, ${colorScheme}, ${page.url()}`).toEqual([]);
  }
}
