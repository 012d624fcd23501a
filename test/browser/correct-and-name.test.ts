import { describe, expect, test } from "vitest";
import { scanAndHear, signIn } from "../kit/bench-page.ts";
import { useBrowserHouse } from "../kit/browser-house.ts";
import { expectAccessible, SIZES, tabTo, visit } from "../kit/open-browser.ts";

describe.each(SIZES)("mending the record, at $at", (size) => {
  const house = useBrowserHouse();
  const number = (name: string) => house.department.number(name);

  test("a move to the wrong rack is corrected on the trail by keyboard, and both entries name each other", async () => {
    const visitor = await visit(house.browser, size, house.address);
    const { page } = visitor;
    await signIn(page, "odile");
    await scanAndHear(page, number("Rack B2"), /^Transfer to Rack B2\./);
    await scanAndHear(page, number("hood"), /^Hood/);
    await scanAndHear(page, number("Rack B2"), /^Written:/);
    await scanAndHear(page, number("look up"), /^Look up\./);
    await scanAndHear(page, number("hood"), /^Hood/);
    await tabTo(page, /Whole trail/, "link");
    await page.keyboard.press("Enter");
    await page.getByRole("heading", { level: 1, name: "Trail" }).waitFor();
    await tabTo(page, /^Correct entry/, "button");
    await page.keyboard.press("Enter");
    const dialog = page.getByRole("dialog", { name: /^Correct entry/ });
    await dialog.waitFor();
    await dialog.getByLabel("Find a place, member or firm").focus();
    await page.keyboard.type("intake", { delay: 120 });
    await tabTo(page, /Intake rack/, "button");
    await expectAccessible(page);
    await page.keyboard.press("Enter");
    await dialog.getByText("Chosen: Intake rack").waitFor();
    await tabTo(page, "Why it is corrected", "textbox");
    await page.keyboard.type("Wrong card.", { delay: 120 });
    await tabTo(page, "Write the correction", "button");
    await page.keyboard.press("Enter");
    await page.getByText(/^Written: the correction of entry \d+\.$/).waitFor();
    await expectAccessible(page);
    expect(await page.getByRole("main").textContent()).toMatch(/Today it is at Intake rack/);
    await visitor.leave();
  });

  test("a provider is named with its verification, and an outside party beside it", async () => {
    const visitor = await visit(house.browser, size, house.address);
    const { page } = visitor;
    await signIn(page, "odile");
    await tabTo(page, "Menu", "button");
    await page.keyboard.press("Enter");
    await tabTo(page, "Providers and others", "link");
    await page.keyboard.press("Enter");
    await tabTo(page, "Name a provider", "button");
    await expectAccessible(page);
    await page.keyboard.press("Enter");
    const name = `Ostrel Garment Care ${size.width}`;
    await tabTo(page, "Name", "textbox");
    await page.keyboard.type(name, { delay: 120 });
    await tabTo(page, "Verified by", "textbox");
    await page.keyboard.type("Pell Verification", { delay: 120 });
    await page.getByLabel("Verified until").fill("2031-05-04");
    await expectAccessible(page);
    await tabTo(page, "Write it", "button");
    await page.keyboard.press("Enter");
    await page.getByText(`Written: ${name}.`).waitFor();
    await page.getByText("Verified until 4 May 2031, by Pell Verification").waitFor();
    await expectAccessible(page);
    await visitor.leave();
  });
});
