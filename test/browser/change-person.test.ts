import { describe, expect, test } from "vitest";
import { pressAndHear, scanAndHear, signIn } from "../kit/bench-page.ts";
import { useBrowserHouse } from "../kit/browser-house.ts";
import { expectAccessible, SIZES, tabTo, visit } from "../kit/open-browser.ts";
import { scanByWedge } from "../kit/scan-by-wedge.ts";
import { STAFF } from "../kit/seed-department.ts";

describe.each(SIZES)("who is at the bench, at $at", (size) => {
  const house = useBrowserHouse();
  const number = (name: string) => house.department.number(name);

  test("badge and PIN change the person with the tray kept; a bare badge turns gear in and does nothing else", async () => {
    const visitor = await visit(house.browser, size, house.address);
    const { page } = visitor;
    const atTheBench = (name: string) => page.getByText(name).filter({ visible: true }).first();
    await signIn(page, "inez");
    await atTheBench("Inez Calloway").waitFor();
    await scanAndHear(page, number("Corwin Bask"), /^Issue to Corwin Bask\./);
    await scanAndHear(page, number("hood"), /^Hood/);

    await scanByWedge(page, number("Tobin Achterberg"));
    await page.getByRole("dialog", { name: "Tobin Achterberg is at the bench" }).waitFor();
    await expectAccessible(page);
    await tabTo(page, "PIN", "textbox");
    await page.keyboard.type("9999", { delay: 120 });
    await page.keyboard.press("Enter");
    await page.getByRole("dialog").getByText("The tray is kept.").waitFor();
    await expectAccessible(page);
    await tabTo(page, "PIN", "textbox");
    await page.keyboard.type(STAFF.tobin.pin, { delay: 120 });
    await page.keyboard.press("Enter");
    await page.getByRole("dialog").waitFor({ state: "hidden" });
    await atTheBench("Tobin Achterberg").waitFor();
    await page.getByText("1 piece on the tray").waitFor();
    await scanAndHear(page, number("Corwin Bask"), /^Written: 1 piece issued to Corwin Bask\.$/);
    expect(await lastActBy()).toBe("Tobin Achterberg");

    await scanByWedge(page, number("Inez Calloway"));
    await tabTo(page, "Turn in only, without PIN", "button");
    await pressAndHear(page, "Enter", /^Turn in, soiled\. Scan a place card/);
    await atTheBench("badge alone: turn-in only").waitFor();
    await page.getByRole("dialog").waitFor({ state: "hidden" });
    await expectAccessible(page);
    for (const action of ["install", "look up"]) {
      await scanAndHear(page, number(action), /^Turn in, soiled\. Scan a place card/);
      await page.getByRole("heading", { level: 1, name: "Turn in, soiled" }).waitFor();
    }
    expect(await page.evaluate(() => fetch("/api/pieces?q=hood").then(({ status }) => status))).toBe(403);
    await scanAndHear(page, number("Intake rack"), /^Turn in, soiled\. Each scan adds/);
    await scanAndHear(page, number("hood"), /^Hood/);
    await scanAndHear(page, number("Intake rack"), /^Written: 1 piece turned in to Intake rack\.$/);
    expect(await lastActBy()).toBe("Inez Calloway");
    await visitor.leave();
  });

  test("what is scanned while it is not said who is here waits, in order, and is the new person's act", async () => {
    const visitor = await visit(house.browser, size, house.address);
    const { page } = visitor;
    await signIn(page, "inez");
    await scanAndHear(page, number("Rack B2"), /^Transfer to Rack B2\./);
    await scanByWedge(page, number("Tobin Achterberg"));
    await page.getByRole("dialog", { name: "Tobin Achterberg is at the bench" }).waitFor();
    const before = await lastAct();
    for (const name of ["helmet", "Rack B2"]) await scanByWedge(page, number(name));
    await page.getByText("2 scans wait, in order, until it is said who is here.").waitFor();
    expect(await lastAct()).toEqual(before);
    await tabTo(page, "PIN", "textbox");
    await page.keyboard.type(STAFF.tobin.pin, { delay: 120 });
    expect(await pressAndHear(page, "Enter", /^Written:/)).toBe("Written: 1 piece transferred to Rack B2.");
    expect(await lastActBy()).toBe("Tobin Achterberg");
    await visitor.leave();
  });

  async function lastAct(): Promise<unknown> {
    const query = house.db.app.selectFrom("act").select("id").orderBy("position", "desc").limit(1);
    return (await query.executeTakeFirst())?.id;
  }

  async function lastActBy(): Promise<string | undefined> {
    const row = await house.db.app
      .selectFrom("act as a")
      .innerJoin("person as p", "p.id", "a.by")
      .select("p.name")
      .orderBy("a.position", "desc")
      .limit(1)
      .executeTakeFirst();
    return row?.name;
  }
});
