import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { PRINTERS } from "../../labels/layout/printer.ts";
import { tagContentOfPiece } from "../../labels/layout/tag-content.ts";
import type { Frame } from "../../web/scan/decode-frame.ts";
import { grouped, signIn } from "../kit/bench-page.ts";
import { useBrowserHouse } from "../kit/browser-house.ts";
import { writeFilm } from "../kit/camera-film.ts";
import { expectAccessible, hears, launchBrowser, SIZES, tabTo, visit } from "../kit/open-browser.ts";
import { withFolder } from "../kit/running-house.ts";
import { type Raster, rasterise } from "../labels/printed-pages.ts";
import { drawnTags } from "../labels/runs-to-print.ts";

const FILM = { width: 1280, height: 720 };
/** Camera pixels a printed dot: a tag of 50 mm fills 800 of the 1280 pixels. */
const SCALE = 2;

/** The printed label on a grey table in front of the camera, a little lower in each frame as a hand holds it. */
function held(label: Raster, dropPx: number): Frame {
  const data = new Uint8ClampedArray(FILM.width * FILM.height * 4).fill(255);
  const left = Math.round((FILM.width - label.width * SCALE) / 2);
  const top = Math.round((FILM.height - label.height * SCALE) / 2) + dropPx;
  for (let y = 0; y < FILM.height; y += 1) {
    for (let x = 0; x < FILM.width; x += 1) {
      const [column, row] = [Math.floor((x - left) / SCALE), Math.floor((y - top) / SCALE)];
      const isOnLabel = column >= 0 && column < label.width && row >= 0 && row < label.height;
      const level = isOnLabel ? (label.grey[row * label.width + column] ?? 255) : 120;
      data.fill(level, (y * FILM.width + x) * 4, (y * FILM.width + x) * 4 + 3);
    }
  }
  return { data, ...FILM };
}

describe.each(SIZES)("the camera at the bench, at $at", (size) => {
  const house = useBrowserHouse();

  test("a tag as it is printed, drawn from its PDF and held before the camera, opens its piece", () =>
    withFolder(async (folder) => {
      const number = house.department.number("loose shell");
      const content = tagContentOfPiece(number, {
        kind: { name: "Coat shell", family: "structural", layer: "shell" },
        ...{ modelName: "K7", linerCode: "LK-2", size: "46 32 R" },
      });
      const printer = PRINTERS["203"];
      const media = { media: "roll", cutGapMm: 0 } as const;
      const [pdf = new Uint8Array()] = await drawnTags({ tags: [content], media, printer });
      const [label] = await rasterise(pdf, printer.dotsPerMm, "pdfjs");
      if (!label) throw new Error("The label was not drawn.");
      const film = join(folder, "tag.y4m");
      writeFilm(
        film,
        [0, 2, 4, 2].map((dropPx) => held(label, dropPx)),
      );
      const browser = await launchBrowser([
        "--use-fake-device-for-media-stream",
        "--use-fake-ui-for-media-stream",
        `--use-file-for-fake-video-capture=${film}`,
      ]);
      try {
        const visitor = await visit(browser, size, house.address);
        const { page } = visitor;
        await signIn(page, "inez");
        await tabTo(page, "Scan a tag", "button");
        const heard = await hears(page, () => page.keyboard.press("Enter"), /^Coat shell/);
        expect(heard).toContain(`Coat shell ${grouped(number)}. Tarnholt K7, size 46 32 R`);
        await page.getByRole("dialog").waitFor({ state: "hidden" });
        await page.getByRole("heading", { level: 2, name: "Coat shell" }).waitFor();
        await expectAccessible(page);
        const { via } = await house.db.app
          .selectFrom("scan")
          .select("via")
          .where("text", "=", number)
          .executeTakeFirstOrThrow();
        expect(via).toBe("camera");
        await visitor.leave();
      } finally {
        await browser.close();
      }
    }));
});
