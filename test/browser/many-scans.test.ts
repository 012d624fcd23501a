import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { grouped, scanAndHear, signIn } from "../kit/bench-page.ts";
import { useBrowserHouse } from "../kit/browser-house.ts";
import { expectAccessible, hears, SIZES, tabTo, visit } from "../kit/open-browser.ts";
import { scanByWedge, scanInTurn } from "../kit/scan-by-wedge.ts";

/** Each answer to a scan is held back for this long, as a server on a slow line does. */
const SLOW_MS = 1_000;

async function slowDown(page: Page): Promise<void> {
  await page.route("**/api/scan/**", async (route) => {
    await new Promise((done) => setTimeout(done, SLOW_MS));
    await route.continue();
  });
}

async function tagsOnTray(page: Page): Promise<string[]> {
  const rows = await page.locator(".tray-list-row .num").allTextContents();
  return rows.map((number) => number.replaceAll(" ", ""));
}

describe.each(SIZES)("many scans, at $at", (size) => {
  const house = useBrowserHouse();
  const number = (name: string) => house.department.number(name);

  test("20 scans in 10 seconds, each answered a second late, stand on the tray complete and in order", async () => {
    const visitor = await visit(house.browser, size, house.address);
    const { page } = visitor;
    await signIn(page, "inez");
    await scanAndHear(page, number("Station 1"), /^Transfer to Station 1\./);
    await slowDown(page);
    const { tags } = house.department;
    expect(tags).toHaveLength(20);
    await scanInTurn(page, tags, 500);
    await page.getByText("20 pieces on the tray").waitFor();
    expect(await tagsOnTray(page)).toEqual(tags);
    await expectAccessible(page);
    await visitor.leave();
  });

  test("two scans 150 ms apart are both taken, in order, while the first is still asked for", async () => {
    const visitor = await visit(house.browser, size, house.address);
    const { page } = visitor;
    await signIn(page, "inez");
    await scanAndHear(page, number("Station 2"), /^Transfer to Station 2\./);
    await slowDown(page);
    const two = [number("hood 4"), number("hood 2")];
    await scanInTurn(page, two, 150);
    await page.getByText("2 pieces on the tray").waitFor();
    expect(await tagsOnTray(page)).toEqual(two);
    await visitor.leave();
  });

  test("a scan inside a text field leaves nothing in it, and fast typing stays and is looked up", async () => {
    const visitor = await visit(house.browser, size, house.address);
    const { page } = visitor;
    await signIn(page, "inez");
    if (size.width < 720) {
      await tabTo(page, "Type a tag", "button");
      await page.keyboard.press("Enter");
    }
    await tabTo(page, "Tag number", "textbox");
    const field = page.getByRole("textbox", { name: "Tag number" });
    const hood = number("hood 1");
    await page.keyboard.type(hood.slice(0, 3), { delay: 90 });
    await scanAndHear(page, number("helmet"), new RegExp(`^Helmet ${grouped(number("helmet"))}`));
    expect(await field.inputValue()).toBe(hood.slice(0, 3));
    // A fast typist: 40 ms from key to key.
    await hears(
      page,
      () => scanByWedge(page, hood.slice(3), { everyMs: 40 }),
      new RegExp(`^Hood ${grouped(hood)}`),
    );
    const kept = await house.db.app
      .selectFrom("scan")
      .select(["text", "via"])
      .where("text", "=", hood)
      .execute();
    expect(kept.filter(({ via }) => via === "typed").length).toBeGreaterThan(0);
    await visitor.leave();
  });
});
