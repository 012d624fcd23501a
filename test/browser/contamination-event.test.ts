import { describe, expect, test } from "vitest";
import { grouped, pressAndHear, scanAndHear, signIn } from "../kit/bench-page.ts";
import { useBrowserHouse } from "../kit/browser-house.ts";
import { expectAccessible, SIZES, tabTo, visit } from "../kit/open-browser.ts";
import { scanByWedge } from "../kit/scan-by-wedge.ts";

describe.each(SIZES)("a contamination event, at $at", (size) => {
  const house = useBrowserHouse();
  const number = (name: string) => house.department.number(name);

  test("gear is dropped in a bag by two scans, opened by its scans, listed at a fire, and isolated by one tap", async () => {
    const visitor = await visit(house.browser, size, house.address);
    const { page } = visitor;
    await signIn(page, "inez");
    await scanAndHear(page, number("Bag 219"), /^Pack a bag\. Bag 219\. Scan the member’s card or badge/);
    await expectAccessible(page);
    await scanAndHear(page, number("Mirela Ferro"), /^Written: Bag 219 packed for Mirela Ferro, presumed/);

    await page.getByText("3 pieces, 3 presumed").waitFor();
    await expectAccessible(page);
    await tabTo(page, "Open bag 219", "button");
    await page.keyboard.press("Enter");
    await page.getByText("0 of 3 found").waitFor();
    await expectAccessible(page);
    await scanAndHear(page, number("worn coat shell"), /^Coat shell/);
    await scanAndHear(page, number("worn coat liner"), /^Coat liner/);
    await scanAndHear(page, number("worn coat DRD"), /^Written: Bag 219 opened, 3 pieces found\.$/);

    await page.goto(`${house.address}/events/new`);
    await tabTo(page, "What happened", "textbox");
    await page.keyboard.type("the Kettle Yard fire", { delay: 120 });
    await tabTo(page, "Fire products", "checkbox");
    await page.keyboard.press("Space");
    await tabTo(page, /^Scan a member card/, "textbox");
    await scanByWedge(page, number("worn coat shell"));
    await page
      .getByText(`1 piece scanned at the scene: Coat shell ${grouped(number("worn coat shell"))}.`)
      .waitFor();
    await scanByWedge(page, number("Mirela Ferro"));
    await page.getByText(/Mirela Ferro held nothing then|What did Mirela Ferro wear/).waitFor();
    await expectAccessible(page);
    await tabTo(page, "Open the event", "button");
    await page.keyboard.press("Enter");
    await page.getByRole("heading", { level: 1, name: "The Kettle Yard fire" }).waitFor();
    await page.getByText("3 of 3 pieces: contamination, the Kettle Yard fire.", { exact: false }).waitFor();
    expect(await page.getByText("with its set").count()).toBe(2);
    await expectAccessible(page);

    await page.goto(house.address);
    await page.getByRole("heading", { level: 1, name: "Look up" }).waitFor();
    await scanAndHear(page, number("worn coat shell"), /^Coat shell .*Not ready to issue/);
    await page.getByText("advanced cleaning or specialised cleaning ends it").first().waitFor();
    await tabTo(page, "To Isolation rack", "button");
    await pressAndHear(page, "Enter", /With Isolation rack\./);
    await expectAccessible(page);
    await visitor.leave();
  });

  test("what kinds ask for is set by the program manager alone, with its source", async () => {
    const visitor = await visit(house.browser, size, house.address);
    const { page } = visitor;
    await signIn(page, "odile");
    await page.goto(`${house.address}/contaminants`);
    await page
      .getByText("Not set: your department must set this. Proposed: Yes.", { exact: false })
      .first()
      .waitFor();
    await expectAccessible(page);
    await tabTo(page, "Set Fire products", "button");
    await page.keyboard.press("Enter");
    const share = page.getByRole("group", { name: "May share a load with other gear" });
    await share.getByRole("radio", { name: "Yes" }).check();
    await tabTo(page, "Source", "textbox");
    await page.keyboard.type("Harrow County procedure 12", { delay: 120 });
    await expectAccessible(page);
    await tabTo(page, "Set these values", "button");
    await page.keyboard.press("Enter");
    await page.getByText("Fire products is set. Every value is an entry.").waitFor();
    await page.getByRole("cell", { name: "Odile Verrill" }).waitFor();
    await visitor.leave();
  });
});
