import type { Page } from "playwright-core";
import { hears, tabTo } from "./open-browser.ts";
import { scanByWedge } from "./scan-by-wedge.ts";
import { PASSPHRASE, type StaffName } from "./seed-department.ts";

/** Signs in by keyboard alone and waits for the bench. */
export async function signIn(page: Page, who: StaffName): Promise<void> {
  await tabTo(page, "Sign-in name", "textbox");
  await page.keyboard.type(who);
  await page.keyboard.press("Tab");
  await page.keyboard.type(PASSPHRASE);
  await page.keyboard.press("Enter");
  await page.getByRole("heading", { level: 1, name: "Look up" }).waitFor();
}

/** Scans and waits for the spoken answer. */
export function scanAndHear(page: Page, number: string, expected: RegExp): Promise<string> {
  return hears(page, () => scanByWedge(page, number), expected);
}

/** Presses a key of the bench and waits for the spoken answer. */
export function pressAndHear(page: Page, key: string, expected: RegExp): Promise<string> {
  return hears(page, () => page.keyboard.press(key), expected);
}

/** A number as the screen writes it: three groups of four. */
export function grouped(number: string): string {
  return number.replace(/(.{4})(?=.)/g, "$1 ");
}
