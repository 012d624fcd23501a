import { describe, expect, test } from "vitest";
import { grouped, pressAndHear, scanAndHear, signIn } from "../kit/bench-page.ts";
import { useBrowserHouse } from "../kit/browser-house.ts";
import { expectAccessible, SIZES, visit } from "../kit/open-browser.ts";

describe.each(SIZES)("two benches at once, at $at", (size) => {
  const house = useBrowserHouse();
  const number = (name: string) => house.department.number(name);

  async function twoBenches() {
    const [first, second] = await Promise.all([
      visit(house.browser, size, house.address),
      visit(house.browser, size, house.address),
    ]);
    await signIn(first.page, "inez");
    await signIn(second.page, "tobin");
    return [first, second] as const;
  }

  test("one liner on two trays goes to one place; the other bench is told what changed and keeps its tray", async () => {
    const [first, second] = await twoBenches();
    const [liner, hood] = [number("wanted liner"), number("hood")];
    await scanAndHear(first.page, number("Station 1"), /^Transfer to Station 1\./);
    await scanAndHear(first.page, liner, /^Coat liner/);
    await scanAndHear(second.page, number("Station 2"), /^Transfer to Station 2\./);
    await scanAndHear(second.page, hood, /^Hood/);
    await scanAndHear(second.page, liner, /^Coat liner/);

    await pressAndHear(first.page, "Enter", /^Written: 1 piece transferred to Station 1\.$/);
    const told = await pressAndHear(second.page, "Enter", /^Not moved\./);
    expect(told).toBe(
      `Not moved. Coat liner ${grouped(liner)} has changed meanwhile. ` +
        "It was at Rack B2; now it is at Station 1. Next: look it up, then confirm again.",
    );
    await second.page.getByText("2 pieces on the tray").waitFor();
    await expectAccessible(second.page);
    await scanAndHear(second.page, number("look up"), /^Look up\./);
    expect(await scanAndHear(second.page, hood, /^Hood/)).toContain("With Rack B2.");
    await first.leave();
    await second.leave();
  });

  test("one liner scanned for two shells at the same moment is installed in one, and the other bench says where it is", async () => {
    const [first, second] = await twoBenches();
    const liner = number("right liner");
    const shells = { first: number("shell of the first bench"), second: number("shell of the second bench") };
    for (const [bench, shell] of [
      [first, shells.first],
      [second, shells.second],
    ] as const) {
      await scanAndHear(bench.page, number("install"), /^Install liner or DRD\./);
      await scanAndHear(bench.page, shell, /^Coat shell/);
    }
    const outcomes = await Promise.all(
      [first, second].map(({ page }) => scanAndHear(page, liner, /^(Written|Not installed)/)),
    );
    expect(outcomes.filter((said) => said === "Written: coat liner installed.")).toHaveLength(1);
    const winner = outcomes[0]?.startsWith("Written") ? shells.first : shells.second;
    const refused = outcomes.find((said) => said.startsWith("Not installed."));
    expect(refused).toContain(
      `Coat liner ${grouped(liner)} is in another shell. It is recorded in coat shell ${grouped(winner)}.`,
    );
    await first.leave();
    await second.leave();
  });
});
