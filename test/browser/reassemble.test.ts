import { describe, expect, test } from "vitest";
import type { PieceId } from "../../server/domain/ids.ts";
import { grouped, pressAndHear, scanAndHear, signIn } from "../kit/bench-page.ts";
import { useBrowserHouse } from "../kit/browser-house.ts";
import { expectAccessible, SIZES, tabTo, visit } from "../kit/open-browser.ts";
import { foundInCircle, washedCoats } from "../kit/washed-coats.ts";

describe.each(SIZES)("reassembling after the wash, at $at", (size) => {
  const house = useBrowserHouse();
  const number = (name: string) => house.department.number(name);
  const isWide = size.width > 1000;

  async function shellOf(layer: PieceId): Promise<string | undefined> {
    const row = await house.db.app
      .selectFrom("fitting")
      .select("shell")
      .where("layer", "=", layer)
      .where("to_at", "is", null)
      .executeTakeFirst();
    return row?.shell;
  }

  test("says which goes in which for a heap scanned in any order, and what stays over and why", async () => {
    const [a, b, c] = await washedCoats(house.db.app, 3);
    if (!a || !b || !c) throw new Error("Three coats were asked for.");
    const visitor = await visit(house.browser, size, house.address);
    const { page } = visitor;
    await signIn(page, "inez");
    await scanAndHear(page, number("reassemble"), /^Lay out to reassemble\. Each scan shows/);
    await page.getByText("Nothing is laid out yet.").waitFor();
    await expectAccessible(page);
    await scanAndHear(page, b.liner, /nothing here goes in\.$/);
    await scanAndHear(
      page,
      a.shell,
      new RegExp(`${grouped(b.liner)} goes in coat shell ${grouped(a.shell)}: labels match`),
    );
    // Its own shell comes: the liner that was shown in another moves there.
    await scanAndHear(
      page,
      b.shell,
      new RegExp(`${grouped(b.liner)} goes in coat shell ${grouped(b.shell)}: its own`),
    );
    await scanAndHear(
      page,
      a.liner,
      new RegExp(`${grouped(a.liner)} goes in coat shell ${grouped(a.shell)}: its own`),
    );
    await scanAndHear(page, c.liner, new RegExp(`${grouped(c.liner)}: nothing here goes in`));
    const main = page.getByRole("main");
    await main.getByText(`Its own shell is coat shell ${grouped(c.shell)}, with Rack B2`).waitFor();
    await main.getByText("0 of 2 shells get all their layers").waitFor();
    await main.getByText(`DRD ${grouped(a.drd)} completes coat shell ${grouped(a.shell)}.`).waitFor();
    await expectAccessible(page);
    await scanAndHear(page, a.liner, /is on the tray already/);
    await pressAndHear(page, "Enter", /^Reassemble\. Scan a shell/);
    await visitor.leave();
  });

  test("puts twenty coats together with sixty scans and nothing else, and refuses a wrong liner as install does", async () => {
    const coats = await washedCoats(house.db.app, isWide ? 20 : 3);
    const visitor = await visit(house.browser, size, house.address);
    const { page } = visitor;
    await signIn(page, "inez");
    await scanAndHear(page, number("reassemble"), /^Lay out/);
    await scanAndHear(page, number("reassemble"), /^Reassemble\./);
    await page.getByText("No shell is open.").waitFor();
    const [first] = coats;
    if (!first) throw new Error("Coats were asked for.");
    await scanAndHear(page, first.shell, new RegExp(grouped(first.shell)));
    const refused = await scanAndHear(page, number("wrong liner"), /^Not installed\./);
    expect(refused).toContain("Model or liner code: takes LK-2, is LK-3.");
    await expectAccessible(page);
    await pressAndHear(page, "Escape", /^The tray is empty\.$/);

    let scans = 0;
    const scan = (tag: string, expected: RegExp) => {
      scans += 1;
      return scanAndHear(page, tag, expected);
    };
    for (const { shell, liner, drd } of coats) {
      await scan(shell, new RegExp(grouped(shell)));
      await scan(liner, /^Written: coat liner installed\.$/);
      await scan(drd, /^Written: DRD installed\.$/);
    }
    expect(scans).toBe(coats.length * 3);
    for (const { ids } of coats) {
      expect([await shellOf(ids.liner), await shellOf(ids.drd)]).toEqual([ids.shell, ids.shell]);
    }
    await page.getByText(`${coats.length} of ${coats.length} shells reassembled`).waitFor();
    await expectAccessible(page);
    await visitor.leave();
  });

  test("sets liners right that went home in a circle, in the steps that it lists", async () => {
    const coats = await washedCoats(house.db.app, 3);
    await foundInCircle(house.db.app, coats);
    const visitor = await visit(house.browser, size, house.address);
    const { page } = visitor;
    await signIn(page, "inez");
    await scanAndHear(page, number("reassemble"), /^Lay out/);
    for (const { shell } of coats) await scanAndHear(page, shell, new RegExp(grouped(shell)));
    for (const { shell, liner } of coats) {
      await scanAndHear(
        page,
        liner,
        new RegExp(`${grouped(liner)} goes in coat shell ${grouped(shell)}: its own`),
      );
    }
    await page.getByText("6 steps set all right, and fewer do not.").waitFor();
    expect(await page.locator(".reassemble-steps li").count()).toBe(6);
    await expectAccessible(page);
    await tabTo(page, "Record 3 layers as taken out", "button");
    await pressAndHear(page, "Enter", /^Written: 3 layers separated\.$/);
    await scanAndHear(page, number("reassemble"), /^Reassemble\./);
    for (const { shell, liner } of coats) {
      await scanAndHear(page, shell, new RegExp(grouped(shell)));
      await scanAndHear(page, liner, /^Written: coat liner installed\.$/);
    }
    for (const { ids } of coats) expect(await shellOf(ids.liner)).toBe(ids.shell);
    await visitor.leave();
  });
});
