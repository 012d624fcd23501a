import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, expect, test } from "vitest";
import { writeFilm } from "../kit/camera-film.ts";
import { launchBrowser } from "../kit/open-browser.ts";
import { photographCode } from "../kit/photographed-code.ts";
import { openScanPage } from "../kit/scan-page.ts";

const NUMBER = "C7K3F92CXTKK";
const FAKE = ["--use-fake-device-for-media-stream"];
const ALLOWED = ["--use-fake-ui-for-media-stream"];
let site: Awaited<ReturnType<typeof openScanPage>>;
let folder: string;
let film: string;
let browser: Browser | undefined;

beforeAll(async () => {
  site = await openScanPage(
    "camera-page-entry.ts",
    '<video style="width:800px;height:600px;object-fit:cover"></video>',
  );
  folder = mkdtempSync(join(tmpdir(), "camera-film-"));
  film = join(folder, "tag.y4m");
  const view = { width: 1280, height: 720, modulePx: 7, blurPx: 1, noise: 6 };
  const frames = [20, 22, 24, 26].map((turnDeg, seed) =>
    photographCode("datamatrix", NUMBER, { ...view, turnDeg, seed }),
  );
  writeFilm(film, frames);
});
afterAll(async () => {
  await site.close();
  rmSync(folder, { recursive: true });
});
afterEach(async () => {
  site.missing.clear();
  await browser?.close();
  browser = undefined;
});

async function open(args: readonly string[], url = site.url): Promise<Page> {
  browser = await launchBrowser(args);
  const page = await browser.newPage();
  await page.goto(url);
  return page;
}
const withFilm = () => [...FAKE, ...ALLOWED, `--use-file-for-fake-video-capture=${film}`];
const scans = (page: Page) => page.evaluate(() => window.cameraPage.scans);
const faults = (page: Page) => page.evaluate(() => window.cameraPage.faults.map((fault) => fault.code));

test("a tag in the camera's picture is reported once while it stays there, and nothing comes from elsewhere", async () => {
  const page = await open(withFilm());
  const hosts = new Set<string>();
  browser?.contexts()[0]?.on("request", (request) => hosts.add(new URL(request.url()).host));
  await page.evaluate(() => window.cameraPage.open());
  await page.waitForFunction(() => window.cameraPage.scans.length > 0, undefined, { timeout: 20_000 });
  await page.waitForTimeout(2_500);
  const [scan, ...more] = await scans(page);
  expect(more).toEqual([]);
  expect(scan).toMatchObject({
    text: NUMBER,
    via: "camera",
    carrier: "data matrix",
    symbology: "DataMatrix",
  });
  expect(scan?.uec).toBeGreaterThan(0.5);
  expect(scan?.device).not.toBe("");
  expect([...hosts]).toEqual([new URL(site.url).host]);
  expect(await faults(page)).toEqual([]);
  expect(await page.evaluate(() => window.cameraPage.camera?.devices.length)).toBeGreaterThan(0);
});

test("a hidden page lets go of the camera and a page shown again reads on", async () => {
  const page = await open(withFilm());
  await page.evaluate(() => window.cameraPage.open());
  await page.waitForFunction(() => window.cameraPage.scans.length === 1, undefined, { timeout: 20_000 });
  const show = (hidden: boolean) =>
    page.evaluate((isHidden) => {
      Object.defineProperty(document, "hidden", { value: isHidden, configurable: true });
      document.dispatchEvent(new Event("visibilitychange"));
    }, hidden);
  const ended = await page.evaluateHandle(() => window.cameraPage.track());
  await show(true);
  expect(await ended.evaluate((track) => track?.readyState)).toBe("ended");
  await page.waitForTimeout(2_000);
  await show(false);
  await page.waitForFunction(() => window.cameraPage.scans.length === 2, undefined, { timeout: 20_000 });
  expect(await faults(page)).toEqual([]);
});

test("a camera that is lost in the middle is said so", async () => {
  const page = await open(withFilm());
  await page.evaluate(() => window.cameraPage.open());
  await page.evaluate(() => window.cameraPage.track()?.dispatchEvent(new Event("ended")));
  expect(await faults(page)).toEqual(["camera lost"]);
});

test("a stopped camera is off and silent", async () => {
  const page = await open(withFilm());
  await page.evaluate(() => window.cameraPage.open());
  const track = await page.evaluateHandle(() => window.cameraPage.track());
  await page.evaluate(() => window.cameraPage.camera?.stop());
  expect(await track.evaluate((one) => one?.readyState)).toBe("ended");
  await page.waitForTimeout(600);
  const before = (await scans(page)).length;
  await page.waitForTimeout(600);
  expect((await scans(page)).length).toBe(before);
});

test("a decoder file that does not arrive is a fault, and the camera is let go", async () => {
  site.missing.add(".wasm");
  const page = await open(withFilm());
  await page.evaluate(() => window.cameraPage.open());
  expect(await faults(page)).toEqual(["decoder not loaded"]);
  expect(await page.evaluate(() => window.cameraPage.track())).toBeUndefined();
});

test("a device without a camera is said so", async () => {
  const page = await open(ALLOWED);
  await page.evaluate(() => window.cameraPage.open());
  expect(await faults(page)).toEqual(["no camera"]);
});

test("a refused permission is said so", async () => {
  const page = await open([...FAKE, "--deny-permission-prompts"]);
  await page.evaluate(() => window.cameraPage.open());
  expect(await faults(page)).toEqual(["permission refused"]);
});

test("a page that is not secure says that it needs https", async () => {
  const address = new URL(site.url);
  address.hostname = "gear.harrow.example";
  const page = await open(
    [...withFilm(), "--host-resolver-rules=MAP gear.harrow.example 127.0.0.1"],
    address.href,
  );
  await page.evaluate(() => window.cameraPage.open());
  expect(await faults(page)).toEqual(["insecure page"]);
});
