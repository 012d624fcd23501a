import { describe, expect, test } from "vitest";
import { useBrowserHouse } from "../kit/browser-house.ts";
import { expectAccessible, SIZES, tabTo, visit } from "../kit/open-browser.ts";
import { untilAnswer } from "../kit/running-house.ts";

describe.each(SIZES)("a first start, at $at", (size) => {
  const house = useBrowserHouse({ isEmpty: true });

  test("the one-time link makes the first program manager by keyboard alone, and opens nothing a second time", async () => {
    const link = () => /https?:\/\/\S+\/link#\S+/.exec(house.said())?.[0] ?? "";
    expect(await untilAnswer(() => link() !== "", true, 20_000)).toBe(true);
    const visitor = await visit(house.browser, size, link());
    const { page } = visitor;
    await tabTo(page, "Your name", "textbox");
    await expectAccessible(page);
    for (const text of [
      "Odile Verrill",
      "odile",
      "eight hooks in the cage",
      "eight hooks in the cage",
      "1701",
    ]) {
      await page.keyboard.type(text);
      await page.keyboard.press("Tab");
    }
    await tabTo(page, "Begin as program manager", "button");
    await page.keyboard.press("Enter");
    await page.getByRole("heading", { level: 1, name: "Look up" }).waitFor();
    await page.getByText("Odile Verrill").filter({ visible: true }).waitFor();
    expect(await page.getByText("Nothing scanned yet.").count()).toBe(1);
    await expectAccessible(page);

    await tabTo(page, "Menu", "button");
    await page.keyboard.press("Enter");
    await page.getByRole("link", { name: "People" }).waitFor();
    await expectAccessible(page);
    await visitor.leave();

    const second = await visit(house.browser, size, link());
    await second.page.locator("[aria-live=assertive]").waitFor();
    expect(await second.page.getByLabel("Your name").count()).toBe(0);
    await expectAccessible(second.page);
    await second.leave();
  });
});
