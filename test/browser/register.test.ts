import { describe, expect, test } from "vitest";
import { signIn } from "../kit/bench-page.ts";
import { useBrowserHouse } from "../kit/browser-house.ts";
import { expectAccessible, SIZES, visit } from "../kit/open-browser.ts";
import { scanByWedge } from "../kit/scan-by-wedge.ts";

describe.each(SIZES)("the register form, at $at", (size) => {
  const house = useBrowserHouse();

  test("a run of alike liners is registered by same again; a serial that is taken is said under its field, and a label is corrected", async () => {
    const visitor = await visit(house.browser, size, house.address);
    const { page } = visitor;
    await signIn(page, "inez");
    await page.goto(`${house.address}/register`);
    const again = page.getByRole("button", { name: "Register, then same again" });
    const field = (name: string) => page.getByLabel(name, { exact: true });

    await again.click();
    await page.getByText("Not written. 3 fields are not right yet.").waitFor();
    await expect.poll(() => field("Kind").evaluate((one) => one === document.activeElement)).toBe(true);
    await expectAccessible(page);

    await field("Kind").selectOption({ label: "Coat liner" });
    await field("Maker").fill("Tarnholt");
    await field("Size").fill("46 32 R");
    await field("Made").fill("05/2024");
    await field("Serial").fill("RUN-1");
    await field("Place or member").selectOption({ index: 1 });
    await again.click();
    await page.getByRole("heading", { name: "In this run: 1 piece" }).waitFor();
    expect([await field("Serial").inputValue(), await field("Maker").inputValue()]).toEqual(["", "Tarnholt"]);

    await page.keyboard.type("RUN-1");
    await page.keyboard.press("Enter");
    await page.getByText("Serial RUN-1 is taken.").first().waitFor();
    expect(await field("Serial").getAttribute("aria-invalid")).toBe("true");
    await field("Serial").fill("RUN-2");
    await again.click();
    await page.getByRole("heading", { name: "In this run: 2 pieces" }).waitFor();
    const tags = await page.getByRole("link", { name: "Print 2 tags" }).getAttribute("href");
    expect(tags).toMatch(/^\/tags\?pieces=[0-9a-f-]{36},[0-9a-f-]{36}$/);
    await expectAccessible(page);

    const rows = await house.db.app
      .selectFrom("piece")
      .select(["serial", "made_on", "lot", "size"])
      .where("serial", "like", "RUN-%")
      .orderBy("serial")
      .execute();
    const liner = { made_on: "2024-05", lot: null, size: "46 32 R" };
    expect(rows).toEqual([
      { serial: "RUN-1", ...liner },
      { serial: "RUN-2", ...liner },
    ]);

    const [piece = ""] = /[0-9a-f-]{36}/.exec(tags ?? "") ?? [];
    await page.goto(`${house.address}/pieces/${piece}/describe`);
    await field("Size").fill("");
    await page.getByText("Was 46 32 R. It becomes unknown after all.").waitFor();
    await page.getByRole("button", { name: "Write it" }).click();
    await page.getByText("Written: what the label says is on record.").waitFor();
    await field("Maker’s barcode or old number").focus();
    await scanByWedge(page, "0109501101020917");
    // A scan is put in and not sent: a code is bound for good, so somebody looks at it first.
    expect(await field("Maker’s barcode or old number").inputValue()).toBe("0109501101020917");
    await page.keyboard.press("Enter");
    await page.getByText("Written: 0109501101020917 opens this piece.").waitFor();
    await expectAccessible(page);
    const described = await house.db.app
      .selectFrom("piece")
      .select("size")
      .where("serial", "=", "RUN-2")
      .executeTakeFirst();
    expect(described?.size).toBeNull();
    await visitor.leave();
  });
});
