import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, beforeEach, expect, test } from "vitest";
import { launchBrowser } from "../kit/open-browser.ts";
import { scanByWedge } from "../kit/scan-by-wedge.ts";
import { openScanPage } from "../kit/scan-page.ts";

const NUMBER = "C7K3F92CXTKK";
const BODY = `
  <form><input id="name"><input id="count" type="number"><textarea id="note"></textarea>
  <input id="code" data-scans="send"><input id="serial" data-scans="fill">
  <input id="day" type="date"><select id="list"><option>Bay</option><option>Cage</option></select><button>Send</button></form>`;
let site: Awaited<ReturnType<typeof openScanPage>>;
let browser: Browser;
let page: Page;

beforeAll(async () => {
  site = await openScanPage("scan-page-entry.ts", BODY);
  browser = await launchBrowser();
});
afterAll(async () => {
  await browser.close();
  await site.close();
});
beforeEach(async () => {
  await page?.close();
  page = await browser.newPage();
  await page.goto(site.url);
});

const scan = (text: string, everyMs: number, end?: "Enter" | "") => scanByWedge(page, text, { everyMs, end });
const seen = () =>
  page.evaluate(() => {
    const { scans, keysSeen, submits, clicks } = window.scanPage;
    return { scans, keysSeen, submits, clicks };
  });
const texts = async () => (await seen()).scans.map((event) => event.text);

for (const id of ["name", "count", "note", "day", "list"]) {
  test(`a scan with the focus in #${id} leaves nothing there, does not send the form, and is reported once`, async () => {
    await page.focus(`#${id}`);
    const before = await page.inputValue(`#${id}`);
    await scan(NUMBER, 8);
    expect(await texts()).toEqual([NUMBER]);
    expect(await page.inputValue(`#${id}`)).toBe(before);
    expect((await seen()).submits).toBe(0);
  });
}

test("a scan keeps what was typed before it, with the caret where it was", async () => {
  await page.fill("#name", "Bask");
  await page.evaluate(() => (document.querySelector("#name") as HTMLInputElement).setSelectionRange(2, 2));
  await scan(NUMBER, 8);
  await page.keyboard.type("X", { delay: 70 });
  expect(await page.inputValue("#name")).toBe("BaXsk");
  expect(await texts()).toEqual([NUMBER]);
});

test("a field that asks for a scan takes it in place of what it held, sends its form once if it says so, and nothing else hears it", async () => {
  await page.fill("#serial", "old");
  await page.focus("#serial");
  await scan("T-90331-0007", 8);
  expect(await page.inputValue("#serial")).toBe("T-90331-0007");
  expect((await seen()).submits).toBe(0);
  await page.focus("#code");
  await scan(NUMBER, 8);
  expect(await page.inputValue("#code")).toBe(NUMBER);
  await expect.poll(async () => (await seen()).submits).toBe(1);
  expect(await texts()).toEqual([]);
});

test("a scan while a button has the focus presses nothing", async () => {
  await page.focus("button");
  await scan(NUMBER, 8);
  expect(await texts()).toEqual([NUMBER]);
  const { clicks, submits } = await seen();
  expect({ clicks, submits }).toEqual({ clicks: 0, submits: 0 });
});

test("quick typing comes through whole and in order, with Enter acting after it", async () => {
  await page.focus("#name");
  await scan("CORWIN", 30);
  expect(await page.inputValue("#name")).toBe("CORWIN");
  expect((await seen()).submits).toBe(1);
  expect(await texts()).toEqual([]);
});

test("quick digits reach a number field, which has no selection to write to", async () => {
  await page.focus("#count");
  await scan("1234567", 35, "");
  expect(await page.inputValue("#count")).toBe("1234567");
});

test("a shortcut outside fields still reaches the page", async () => {
  await scan("T", 10, "");
  expect((await seen()).keysSeen).toEqual(["T"]);
});

test("a scan is read whole while the page is busy for 300 ms in the middle of it", async () => {
  await page.focus("#name");
  const busy = page.evaluate(() => {
    setTimeout(() => {
      const until = performance.now() + 300;
      while (performance.now() < until);
    }, 30);
  });
  await Promise.all([busy, scan("4006381333931", 8)]);
  await page.waitForTimeout(400);
  expect(await texts()).toEqual(["4006381333931"]);
  expect(await page.inputValue("#name")).toBe("");
});

test("three knocks sound after a stopped scan although the page itself saw none of its keys, unless muted", async () => {
  const notes = () =>
    page.evaluate(async () => {
      const started: number[] = [];
      const { start } = OscillatorNode.prototype;
      OscillatorNode.prototype.start = function (when) {
        started.push(this.frequency.value);
        start.call(this, when);
      };
      window.scanPage.sounds.play("snap");
      await new Promise((done) => setTimeout(done, 500));
      OscillatorNode.prototype.start = start;
      return started;
    });
  await scan(NUMBER, 8);
  expect(await notes()).toEqual([520, 520, 520]);
  await page.evaluate(() => window.scanPage.sounds.mute(true));
  expect(await notes()).toEqual([]);
  await page.reload();
  expect(await page.evaluate(() => window.scanPage.sounds.isMuted())).toBe(true);
});
