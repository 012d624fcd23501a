import { readFileSync, writeFileSync } from "node:fs";
import path from "node:path";
import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { readBack } from "../../labels/draw/read-back.ts";
import { signIn } from "../kit/bench-page.ts";
import { useBrowserHouse } from "../kit/browser-house.ts";
import { expectAccessible, SIZES, visit } from "../kit/open-browser.ts";
import { withFolder } from "../kit/running-house.ts";

const GEAR = [
  "Kind;Maker;Model;Size;Serial;Made;Place;Dept",
  "Coat outer shell;Tarnholt;Ridge 40;46 32 R;IM-1;2019-03;Rack Z9;A",
  "Coat liner;Tarnholt;RL 4;46 32 R;IM-2;2019-03;Rack Z9;A",
  "coat;Tarnholt;RL 4;46 32 R;IM-3;03/04/2019;;A",
].join("\r\n");

describe.each(SIZES)("bringing in gear and printing its tags, at $at", (size) => {
  const house = useBrowserHouse();

  test("a file is read, its missing place made, its good rows brought in, and their tags drawn, saved and printed", async () => {
    const visitor = await visit(house.browser, size, house.address);
    const { page } = visitor;
    await signIn(page, "inez");
    await page.goto(`${house.address}/import`);
    await expectAccessible(page);

    const file = { name: "cage list.csv", mimeType: "text/csv", buffer: Buffer.from(GEAR) };
    await page.getByLabel("The file", { exact: true }).setInputFiles(file);
    await page.getByRole("button", { name: "Read the file" }).click();
    await page.getByText("The file has no rows").or(page.getByText("0 of 3 rows can come in.")).waitFor();
    await page.getByText('Kind: "coat" may be').first().waitFor();
    await page.getByText("Not read: Dept.").waitFor();
    await expectAccessible(page);

    await page.getByLabel("What Rack Z9 is", { exact: true }).selectOption("rack");
    await page.getByRole("button", { name: "Make 1 place" }).click();
    await page.getByText("2 of 3 rows can come in.").waitFor();
    await page.getByRole("button", { name: "Every problem by row" }).click();
    await page.getByText('Made: "03/04/2019" could be day/month or month/day.').first().waitFor();
    const parked = await saved(page, "Save the parked rows");
    expect(parked.toString("utf8")).toContain("coat;Tarnholt;RL 4;46 32 R;IM-3;03/04/2019;;A;4;");
    // The browser keeps the page where it is: what was read is still there after a reload.
    await page.reload();
    await page.getByText("2 of 3 rows can come in.").waitFor();
    await page.getByRole("button", { name: "Bring in 2 pieces" }).click();
    await page.getByText("2 pieces brought in.").waitFor();
    await expectAccessible(page);

    await page.getByRole("link", { name: "Print their tags" }).click();
    await page.getByText("2 pieces carry no live tag here.").waitFor();
    await page.getByRole("button", { name: "Draw: read the cautions first" }).press("Enter");
    await expect.poll(() => page.evaluate(() => document.activeElement?.id)).toBe("print-cautions");
    await expectAccessible(page);
    await page.getByLabel("I have read this").check();
    await page.getByRole("button", { name: "Draw 2 tags" }).click();
    // The line with the model is too long for a tag: the reason says whose, and what to do.
    await page.getByText("Not printed: Coat shell, Ridge 40, serial IM-1.").waitFor();
    await page.getByText("Print without the model's name").first().waitFor();
    await expectAccessible(page);
    await page.getByRole("button", { name: "Another run" }).click();
    await page.getByText("2 pieces carry no live tag here.").waitFor();
    await page.getByLabel("What a tag says").selectOption({ label: "All but the model" });
    await page.getByLabel("I have read this").check();
    await page.getByRole("button", { name: "Draw 2 tags" }).click();
    await page.getByText("2 tags are drawn, and every symbol was read back.").waitFor();
    const pdf = await saved(page, "Save");
    const pieces = await house.db.app
      .selectFrom("tag as t")
      .innerJoin("piece as p", "p.id", "t.meant_for")
      .select(["t.number", "p.serial", "t.state"])
      .where("p.serial", "like", "IM-%")
      .orderBy("p.kind", "desc")
      .execute();
    expect((await readBack(pdf)).toSorted()).toEqual(pieces.map(({ number }) => number).toSorted());
    await page.getByRole("button", { name: "Show: File 1: 2 labels" }).click();
    expect(await page.locator("iframe.run-frame").getAttribute("src")).toMatch(/^blob:/);
    await expectAccessible(page);
    await page.getByRole("button", { name: "Hide: File 1: 2 labels" }).click();
    await page.getByRole("button", { name: "They are printed" }).click();
    await page.getByText("2 tags are printed.").waitFor();
    await expectAccessible(page);
    await visitor.leave();
  });

  test("the same file again is told by whom and when; a workbook and a file too large are told what to do", () =>
    withFolder(async (folder) => {
      const visitor = await visit(house.browser, size, house.address);
      const { page } = visitor;
      await signIn(page, "odile");
      await page.goto(`${house.address}/import`);
      const bring = async (name: string, bytes: Buffer) => {
        const file = path.join(folder, name);
        writeFileSync(file, bytes);
        await page.getByLabel("The file", { exact: true }).setInputFiles(file);
        await page.getByRole("button", { name: "Read the file" }).click();
      };
      await bring("again.csv", Buffer.from(GEAR));
      await page.getByText("This file was brought in before.").waitFor();
      await page.getByText(/Inez Calloway brought it in .*: 2 rows, 1 parked\./).waitFor();
      await expectAccessible(page);
      await page.getByRole("button", { name: "Bring in another file" }).click();
      await bring("book.csv", Buffer.from([0x50, 0x4b, 3, 4, 20, 0]));
      await page.getByText("It is a workbook.").waitFor();
      await expectAccessible(page);
      await page.getByRole("button", { name: "Bring in another file" }).click();
      await bring("large.csv", Buffer.alloc(21 * 1024 * 1024, "a"));
      await page.getByText("The file has 21.0 MB and 20 MB is the most.").waitFor();
      await visitor.leave();
    }));

  test("cards of actions and places are drawn, and a mapping by hand reads a file with strange headers", async () => {
    const visitor = await visit(house.browser, size, house.address);
    const { page } = visitor;
    await signIn(page, "odile");
    await page.goto(`${house.address}/cards`);
    await page.getByLabel("Actions of the bench").check();
    await page
      .getByRole("group", { name: /^Places/ })
      .getByLabel("All")
      .check();
    await expectAccessible(page);
    await page.getByRole("button", { name: /^Draw the action cards and/ }).click();
    await page.getByText(/cards are drawn, and every code was read back\./).waitFor();
    await expectAccessible(page);

    await page.goto(`${house.address}/import?what=members`);
    const roster = {
      name: "roster.csv",
      mimeType: "text/csv",
      buffer: Buffer.from("Who,Tally\r\nMirela Ferro,7001\r\n"),
    };
    await page.getByLabel("The file", { exact: true }).setInputFiles(roster);
    await page.getByRole("button", { name: "Read the file" }).click();
    await page.getByText("No column holds Number. No row was read.").first().waitFor();
    await page.getByLabel("Number", { exact: true }).selectOption({ label: "2: Tally" });
    await page.getByLabel("Name", { exact: true }).selectOption({ label: "1: Who" });
    await page.getByRole("button", { name: "Read the file again" }).click();
    await page.getByRole("button", { name: "Bring in 1 member" }).click();
    await page.getByText("1 member brought in.").waitFor();
    await visitor.leave();
  });
});

/** Presses a link that saves a file, and gives the file. */
async function saved(page: Page, name: string): Promise<Buffer> {
  const [download] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("link", { name, exact: true }).first().click(),
  ]);
  return readFileSync(await download.path());
}
