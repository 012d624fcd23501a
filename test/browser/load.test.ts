import type { Page } from "playwright-core";
import { beforeAll, describe, expect, test } from "vitest";
import { installLayerAct, movePiecesAct } from "../../server/cases/bench-acts.ts";
import { registerPiecesAct } from "../../server/cases/register-acts.ts";
import { drawCardsAct } from "../../server/cases/tag-acts.ts";
import type { PieceId, PlaceId } from "../../server/domain/ids.ts";
import { actor, aDraft } from "../kit/acting.ts";
import { grouped, pressAndHear, scanAndHear, signIn } from "../kit/bench-page.ts";
import { useBrowserHouse } from "../kit/browser-house.ts";
import { type AMachine, aDryer, aWasher } from "../kit/machines.ts";
import { expectAccessible, SIZES, tabTo, visit } from "../kit/open-browser.ts";
import { aLiveTag } from "../kit/scanning.ts";

/** A washer, a dryer and gear that came in soiled; the time in hand is an hour ago, so that nothing lies ahead. */
describe.each(SIZES)("a load at the bench, at $at", (size) => {
  const house = useBrowserHouse();
  const tags: string[] = [];
  const shells: PieceId[] = [];
  let washer: AMachine;
  let dryer: AMachine;
  let coat = "";
  let cards: ReadonlyMap<PlaceId, string>;

  beforeAll(async () => {
    const { app } = house.db;
    const odile = actor(() => app, "program manager", new Date(Date.now() - 3_600_000).toISOString());
    washer = await aWasher(odile);
    dryer = await aDryer(odile);
    await odile.must(drawCardsAct, { places: [washer.place, dryer.place], members: [] });
    const rows = await app.selectFrom("place").select(["id", "number"]).execute();
    cards = new Map(rows.map(({ id, number }) => [id as PlaceId, number ?? ""]));
    const rack = await app
      .selectFrom("place")
      .select("id")
      .where("name", "=", "Intake rack")
      .executeTakeFirstOrThrow();
    const to = { kind: "place" as const, id: rack.id as PlaceId };
    const drafts = Array.from({ length: 6 }, () => aDraft("coat-shell", to.id));
    const liner = aDraft("coat-liner", to.id, { linerCode: "LK-2" });
    await odile.must(registerPiecesAct, { pieces: [...drafts, liner], evidence: "typed" });
    for (const { id } of drafts) tags.push(await aLiveTag(app, odile, id));
    shells.push(...drafts.map(({ id }) => id));
    const pieces = shells.map((piece) => ({ piece, evidence: "scanned" as const }));
    await odile.must(movePiecesAct, { pieces, to, purpose: "turn in", soiled: true });
    coat = tags[5] ?? "";
    await odile.must(installLayerAct, { shell: shells[5] as PieceId, layer: liner.id, evidence: "scanned" });
  });
  const card = ({ place }: AMachine) => cards.get(place) ?? "";
  const washes = async () =>
    (
      await house.db.app
        .selectFrom("piece")
        .select(["washes", "soiled", "holder"])
        .where("id", "in", shells.slice(0, 5))
        .execute()
    ).map((row) => [row.washes, row.soiled, row.holder]);

  test("washes and dries five shells with exactly ten scans, and is taken back with one button", async () => {
    const visitor = await visit(house.browser, size, house.address);
    const { page } = visitor;
    await signIn(page, "inez");
    let scans = 0;
    const scan = (text: string, hears: RegExp) => {
      scans += 1;
      return scanAndHear(page, text, hears);
    };
    await scan(
      card(washer),
      /^Load Washer 1\. Each scan goes in the machine\. Its card again starts the load\.$/,
    );
    for (const tag of tags.slice(0, 5)) await scan(tag, /^Coat shell/);
    await page.getByText("Turnout gear: advanced cleaning, 105 °F").waitFor();
    await expectAccessible(page);
    await scan(card(washer), /^Written: load of 5 pieces started in Washer 1\.$/);
    await page.getByText("A load runs in Washer 1").waitFor();
    await expectAccessible(page);
    await scan(card(washer), /^Written: load in Washer 1 ended as programmed\.$/);
    expect(await washes()).toEqual(Array(5).fill([1, false, washer.place]));
    await scan(
      card(dryer),
      /^Load Dryer 1\. 5 pieces from Washer 1 came along\. This card again starts the load\.$/,
    );
    await scan(card(dryer), /^Written: load of 5 pieces started in Dryer 1\.$/);
    expect(scans).toBe(10);
    expect(await washes()).toEqual(Array(5).fill([1, false, dryer.place]));

    await tabTo(page, "Take it back", "button");
    await pressAndHear(page, "Enter", /^Written: taken back: load of 5 pieces started in Dryer 1\.$/);
    expect(await washes()).toEqual(Array(5).fill([1, false, washer.place]));
    await visitor.leave();
  });

  test("refuses a coat with its liner inside, and keeps the tray", async () => {
    const visitor = await visit(house.browser, size, house.address);
    const { page } = visitor;
    await signIn(page, "tobin");
    await scanAndHear(page, card(washer), /^Load Washer 1\./);
    await scanAndHear(page, coat, /^Coat shell/);
    const refused = await scanAndHear(page, card(washer), /^Not started\./);
    expect(refused).toMatch(
      /^Not started\. Coat liner is still in its shell\. It is recorded in coat shell .*; layers are washed apart\./,
    );
    await expectAccessible(page);
    await page.getByText("1 piece on the tray").waitFor();
    await pressAndHear(page, "Escape", /^The tray is empty\.$/);
    await visitor.leave();
  });

  test("on the clean side a soiled coat says when it came in, and what was in its pocket gets a receipt", async () => {
    const visitor = await visit(house.browser, size, house.address);
    const { page } = visitor;
    await signIn(page, "inez");
    await tabTo(page, "Menu", "button");
    await page.keyboard.press("Enter");
    await tabTo(page, "Machines", "link");
    await page.keyboard.press("Enter");
    await tabTo(page, "Not said", "radio");
    await page.keyboard.press("ArrowRight");
    await page.keyboard.press("ArrowRight");
    expect(await scanAndHear(page, coat, /^Coat shell/)).toMatch(
      /Coat shell came in soiled (5\d|6\d) minutes ago and has no load\.$/,
    );
    await page.getByText("This is the clean side.").waitFor();
    await expectAccessible(page);
    await tabTo(page, "Found property", "link");
    await page.keyboard.press("Enter");
    await tabTo(page, "What it is, and where it is kept", "textbox");
    // As a person types: in one burst it would be a scanner's.
    await page.keyboard.type("A door key, in the drawer", { delay: 90 });
    await tabTo(page, "Write a receipt", "button");
    await page.keyboard.press("Enter");
    await page.getByRole("heading", { name: "Receipt P-000001" }).waitFor();
    await expectAccessible(page);
    await tabTo(page, "Given back to its owner", "button");
    await page.keyboard.press("Enter");
    await page.getByText("Nothing is kept.").waitFor();
    await visitor.leave();
  });

  test("a machine found faulty is asked by keyboard what it ran since its last good check, and starts no load", async () => {
    const visitor = await visit(house.browser, size, house.address);
    const { page } = visitor;
    await signIn(page, "odile");
    await tabTo(page, "Menu", "button");
    await page.keyboard.press("Enter");
    await tabTo(page, "Machines", "link");
    await page.keyboard.press("Enter");
    await tabTo(page, /^Washer 1/, "link");
    await expectAccessible(page);
    await page.keyboard.press("Enter");
    await page.getByRole("heading", { name: "What it ran" }).waitFor();
    await expectAccessible(page);
    await record(page);
    await tabTo(page, /^Faulty/, "link");
    await page.keyboard.press("Enter");
    await page.getByText("From its first load on, since no check before found it in order,").waitFor();
    for (const tag of tags.slice(0, 5))
      expect(await page.getByText(grouped(tag)).count(), tag).toBeGreaterThan(0);
    await expectAccessible(page);

    await scanAndHear(page, card(washer), /^Load Washer 1\./);
    await scanAndHear(page, tags[0] ?? "", /^Coat shell/);
    expect(await scanAndHear(page, card(washer), /^Not started\./)).toContain("Washer 1 was found faulty.");
    await visitor.leave();
  });
});

async function record(page: Page): Promise<void> {
  await tabTo(page, "Record a check", "button");
  await page.keyboard.press("Enter");
  await tabTo(page, "In order", "radio");
  await page.keyboard.press("ArrowRight");
  await tabTo(page, "Write", "button");
  await expectAccessible(page);
  await page.keyboard.press("Enter");
  await page.getByText("Washer 1: found faulty.").waitFor();
}
