import { describe, expect, test } from "vitest";
import { grouped, pressAndHear, scanAndHear, signIn } from "../kit/bench-page.ts";
import { useBrowserHouse } from "../kit/browser-house.ts";
import { expectAccessible, hears, SIZES, tabTo, visit } from "../kit/open-browser.ts";

describe.each(SIZES)("installing a liner, at $at", (size) => {
  const house = useBrowserHouse();
  const number = (name: string) => house.department.number(name);

  test("a wrong liner is stopped with every reason and no hold; the right one is written, and taken back", async () => {
    const visitor = await visit(house.browser, size, house.address);
    const { page } = visitor;
    await expectAccessible(page);
    await signIn(page, "inez");
    const [shell, wrong, right] = [number("loose shell"), number("wrong liner"), number("right liner")];

    await scanAndHear(page, number("install"), /^Install liner or DRD\. Scan the shell/);
    await scanAndHear(page, shell, /^Coat shell/);
    await expectAccessible(page);
    const refused = await scanAndHear(page, wrong, /^Not installed\./);
    expect(refused).toBe(
      `Not installed. Differs. Coat liner ${grouped(wrong)} does not belong in coat shell ${grouped(shell)}. ` +
        "Model or liner code: takes LK-2, is LK-3. Size: 46 32 R, 44 32 R. " +
        "Next: take it out and scan the one that belongs here, or record the maker's word.",
    );
    const spoken = await page.evaluate(() => window.spoken.at(-2));
    expect(spoken).toBe(`Differs. Coat liner ${grouped(wrong)}`);
    await page.getByRole("heading", { level: 2, name: "Differs" }).waitFor();
    const rows = await page.locator(".seam-stop").allTextContents();
    expect(rows.map((row) => row.replace(/\s+/g, " ").trim()).join(" / ")).toMatch(
      /takes LK-2.*is LK-3.*46 32 R.*44 32 R/,
    );
    await expectAccessible(page);

    await scanAndHear(page, number("look up"), /^Look up\./);
    const looked = await scanAndHear(page, wrong, /^Coat liner/);
    expect(looked).toContain("With Rack B2.");
    await page.getByText("Holds").waitFor();
    const fact = page.locator("dl, table").filter({ hasText: "Holds" });
    expect(await fact.textContent()).toMatch(/Holds\s*None/);
    await expectAccessible(page);

    await scanAndHear(page, number("install"), /^Install/);
    await scanAndHear(page, shell, /^Coat shell/);
    await scanAndHear(page, right, /^Written: coat liner installed\.$/);
    await page.getByRole("heading", { level: 2, name: "Labels match" }).waitFor();
    await expectAccessible(page);
    expect(await fittedIn(right)).toBe(house.department.piece("loose shell"));

    await tabTo(page, "Take it back", "button");
    await pressAndHear(page, "Enter", /^Written: taken back: coat liner installed\.$/);
    expect(await fittedIn(right)).toBeUndefined();
    await scanAndHear(page, number("look up"), /^Look up\./);
    await hears(page, () => page.keyboard.press("Escape"), /^The tray is empty\./);
    await scanAndHear(page, right, /^Coat liner/);
    await page.getByText("It is not in a shell.").waitFor();
    await visitor.leave();
  });

  async function fittedIn(liner: string): Promise<string | undefined> {
    const row = await house.db.app
      .selectFrom("fitting as f")
      .innerJoin("tag as t", "t.piece", "f.layer")
      .select("f.shell")
      .where("t.number", "=", liner)
      .where("f.to_at", "is", null)
      .executeTakeFirst();
    return row?.shell;
  }
});
