import { describe, expect, test } from "vitest";
import { grouped, pressAndHear, scanAndHear, signIn } from "../kit/bench-page.ts";
import { useBrowserHouse } from "../kit/browser-house.ts";
import { expectAccessible, SIZES, tabTo, visit } from "../kit/open-browser.ts";

describe.each(SIZES)("issue and turn-in, at $at", (size) => {
  const house = useBrowserHouse();
  const number = (name: string) => house.department.number(name);

  test("a good set goes to a member with the same card twice and stands on the member's page; an incomplete coat does not go", async () => {
    const visitor = await visit(house.browser, size, house.address);
    const { page } = visitor;
    await signIn(page, "inez");
    await scanAndHear(page, number("Corwin Bask"), /^Issue to Corwin Bask\. Each scan adds/);
    await scanAndHear(page, number("coat shell"), /^Coat shell .*Ready to issue\.$/);
    await scanAndHear(page, number("hood"), /^Hood/);
    await scanAndHear(page, number("helmet"), /^Helmet/);
    expect(await scanAndHear(page, number("hood"), /already/)).toContain("is on the tray already.");
    await page.getByText("Fit on the wearer").waitFor();
    await expectAccessible(page);
    await scanAndHear(page, number("Corwin Bask"), /^Written: 3 pieces issued to Corwin Bask\.$/);

    await tabTo(page, "Menu", "button");
    await page.keyboard.press("Enter");
    await tabTo(page, "Members", "link");
    await page.keyboard.press("Enter");
    await tabTo(page, /Corwin Bask/, "link");
    await expectAccessible(page);
    await page.keyboard.press("Enter");
    await page.getByText("With the member now: 5 pieces").first().waitFor();
    await expectAccessible(page);
    for (const piece of ["coat shell", "coat liner", "coat DRD", "hood", "helmet"]) {
      expect(await page.getByText(grouped(number(piece))).count(), piece).toBeGreaterThan(0);
    }

    await scanAndHear(page, number("Petra Oxholm"), /^Issue to Petra Oxholm\./);
    const bare = number("bare shell");
    await scanAndHear(page, bare, /^Coat shell .*Not ready to issue/);
    const tray = page.getByRole("main");
    expect(await tray.textContent()).toMatch(/lacks its coat liner\..*lacks its DRD\./);
    await expectAccessible(page);
    const refused = await scanAndHear(page, number("Petra Oxholm"), /^Not issued\./);
    expect(refused).toBe(
      `Not issued. Coat shell ${grouped(bare)} is not complete. It has no coat liner. ` +
        "Next: scan one and install it, or clear the tray. " +
        `Coat shell ${grouped(bare)} is not complete. It has no DRD. ` +
        "Next: scan one and install it, or clear the tray.",
    );
    await expectAccessible(page);
    await pressAndHear(page, "Escape", /^The tray is empty\.$/);
    await scanAndHear(page, number("look up"), /^Look up\./);
    expect(await scanAndHear(page, bare, /^Coat shell/)).toContain("With Rack B2.");
    await visitor.leave();
  });

  test("a coat turned in soiled awaits wash and is not issued until its wash is recorded", async () => {
    const visitor = await visit(house.browser, size, house.address);
    const { page } = visitor;
    await signIn(page, "tobin");
    const layers = ["worn coat shell", "worn coat liner", "worn coat DRD"].map(number);
    const [shell = ""] = layers;
    await scanAndHear(page, number("turn in soiled"), /^Turn in, soiled\. Scan a place card/);
    await scanAndHear(page, number("Intake rack"), /^Turn in, soiled\. Each scan adds/);
    await scanAndHear(page, shell, /^Coat shell .*With Mirela Ferro\./);
    await pressAndHear(page, "Enter", /^Written: 1 piece turned in to Intake rack\.$/);

    await scanAndHear(page, number("look up"), /^Look up\./);
    expect(await scanAndHear(page, shell, /^Coat shell/)).toMatch(
      /With Intake rack\. Not ready to issue\. .*is soiled and awaits wash\./,
    );
    await page.getByText("It awaits wash and cannot be issued.").waitFor();
    await expectAccessible(page);

    await scanAndHear(page, number("Mirela Ferro"), /^Issue to Mirela Ferro\./);
    await scanAndHear(page, shell, /^Coat shell .*Not ready to issue/);
    const refused = await pressAndHear(page, "Enter", /^Not issued\./);
    for (const layer of layers) expect(refused).toContain(`${grouped(layer)} awaits wash.`);
    await pressAndHear(page, "Escape", /^The tray is empty\.$/);

    await scanAndHear(page, number("washed"), /^Record a wash\./);
    for (const layer of layers) await scanAndHear(page, layer, new RegExp(grouped(layer)));
    expect(await pressAndHear(page, "Enter", /^Not written\./)).toContain("is still in its shell.");
    await pressAndHear(page, "Escape", /^The tray is empty\.$/);
    await scanAndHear(page, number("separate"), /^Separate\. Scan a garment\./);
    await scanAndHear(page, shell, /^Coat shell/);
    await pressAndHear(page, "Enter", /^Written: layers of 1 piece separated\.$/);
    await scanAndHear(page, number("washed"), /^Record a wash\./);
    for (const layer of layers) await scanAndHear(page, layer, new RegExp(grouped(layer)));
    await pressAndHear(page, "Enter", /^Written: wash of 3 pieces recorded\.$/);
    await scanAndHear(page, number("install"), /^Install liner or DRD\./);
    await scanAndHear(page, shell, /^Coat shell/);
    await scanAndHear(page, layers[1] ?? "", /^Written: coat liner installed\.$/);
    await scanAndHear(page, layers[2] ?? "", /^Written: DRD installed\.$/);
    await scanAndHear(page, number("look up"), /^Look up\./);
    expect(await scanAndHear(page, shell, /^Coat shell/)).toMatch(/With Intake rack\. Ready to issue\.$/);
    await visitor.leave();
  });
});
