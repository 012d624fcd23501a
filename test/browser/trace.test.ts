import { beforeAll, describe, expect, test } from "vitest";
import { movePiecesAct } from "../../server/cases/bench-acts.ts";
import { namePlaceAct, registerPiecesAct } from "../../server/cases/register-acts.ts";
import type { PieceId, PlaceId } from "../../server/domain/ids.ts";
import { actor, aDraft, anId } from "../kit/acting.ts";
import { grouped, signIn } from "../kit/bench-page.ts";
import { useBrowserHouse } from "../kit/browser-house.ts";
import { expectAccessible, SIZES, tabTo, visit } from "../kit/open-browser.ts";
import { scanByWedge } from "../kit/scan-by-wedge.ts";
import { aLiveTag } from "../kit/scanning.ts";

const HOUR_MS = 3_600_000;

/** A shell and a hood in one bag; the hood then lies on a shared rack with a helmet. */
describe.each(SIZES)("a trace from start to end, at $at", (size) => {
  const house = useBrowserHouse();
  const places = { bag: anId<PlaceId>(), rack: anId<PlaceId>() };
  let hood = "";
  let helmet = "";

  beforeAll(async () => {
    const { app } = house.db;
    const ago = (hours: number) => new Date(Date.now() - hours * HOUR_MS).toISOString();
    const odile = actor(() => app, "program manager", ago(30));
    await odile.must(namePlaceAct, { id: places.bag, name: "Bag 217", what: "bag", carries: "closed" });
    await odile.must(namePlaceAct, { id: places.rack, name: "Rack Q1", what: "rack", carries: "shared" });
    const shell = aDraft("coat-shell", places.bag);
    const inBag = aDraft("hood", places.bag);
    const onRack = aDraft("helmet", places.rack);
    await odile.must(registerPiecesAct, { pieces: [shell], evidence: "typed" }, ago(29));
    await odile.must(registerPiecesAct, { pieces: [inBag], evidence: "typed" }, ago(28));
    await odile.must(registerPiecesAct, { pieces: [onRack], evidence: "typed" }, ago(29));
    hood = await aLiveTag(app, odile, inBag.id);
    helmet = await aLiveTag(app, odile, onRack.id);
    await odile.must(
      movePiecesAct,
      {
        pieces: [{ piece: inBag.id as PieceId, evidence: "scanned" }],
        to: { kind: "place", id: places.rack },
        purpose: "transfer",
      },
      ago(20),
    );
  });

  test("a bag is traced, its list is kept, worked by scans and closed; the spreadsheet says the same", async () => {
    const visitor = await visit(house.browser, size, house.address);
    const { page } = visitor;
    await signIn(page, "odile");
    await page.goto(`${house.address}/trace?place=${places.bag}`);
    await tabTo(page, "Trace", "button");
    await page.keyboard.press("Enter");
    await page.getByText("1 possible contact of Bag 217.").waitFor();
    await expectAccessible(page);

    await tabTo(page, "Keep the list", "button");
    await page.keyboard.press("Enter");
    await page.getByRole("heading", { name: "Work the list" }).waitFor();
    await expectAccessible(page);
    await tabTo(page, "Close the list", "button");
    await page.keyboard.press("Enter");
    await page.getByText("One possible contact has no outcome.").waitFor();

    await page.getByLabel("Scan a piece of the list, or type its number").focus();
    await scanByWedge(page, hood);
    await page.getByText(/^Hood .* is not on this list\./).waitFor();
    await scanByWedge(page, helmet);
    await page.getByText(`Helmet ${grouped(helmet)} is found.`).waitFor();
    await page.getByText("1 of 1 have an outcome").waitFor();
    await page.getByRole("radio", { name: "Isolated" }).focus();
    await page.keyboard.press("Space");
    await tabTo(page, "Record the outcome", "button");
    await page.keyboard.press("Enter");
    await page
      .getByText(/^Isolated, today, .*Odile/)
      .first()
      .waitFor();

    const trace = page.url().split("/").at(-1);
    const list = await page.evaluate(async (id) => (await fetch(`/api/traces/${id}/list.csv`)).text(), trace);
    expect(list).toContain(helmet);
    expect(list).toContain("isolated");
    expect(list.trim().split(/\r?\n/)).toHaveLength(2);

    await tabTo(page, "Close the list", "button");
    await page.keyboard.press("Enter");
    await page.getByText("The list is closed.").waitFor();
    await expectAccessible(page);
    await visitor.leave();
  });
});
