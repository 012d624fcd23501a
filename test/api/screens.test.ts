import fs from "node:fs";
import os from "node:os";
import path from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { createApp } from "../../server/http/app.ts";
import type { Services } from "../../server/http/services.ts";
import { standingClock } from "../kit/standing-clock.ts";
import { testApp } from "../kit/test-app.ts";
import { useTestDatabase } from "../kit/test-database.ts";

const db = useTestDatabase();
const folder = fs.mkdtempSync(path.join(os.tmpdir(), "layertrail-screens-"));
const webDist = path.join(folder, "dist");

beforeAll(() => {
  fs.mkdirSync(path.join(webDist, "assets"), { recursive: true });
  fs.writeFileSync(path.join(webDist, "index.html"), "<!doctype html><title>Layertrail</title>");
  fs.writeFileSync(path.join(webDist, "assets/reader-1a2b.wasm"), Buffer.from([0, 0x61, 0x73, 0x6d]));
  fs.writeFileSync(path.join(folder, "secret.txt"), "outside");
});
afterAll(() => fs.rmSync(folder, { recursive: true }));

function served(more: Partial<Services> = {}) {
  const { services } = testApp(db, standingClock().now);
  const app = createApp({ ...services, webDist, ...more });
  return (at: string, init?: RequestInit) => app.request(`http://127.0.0.1:4410${at}`, init);
}

describe("the screens", () => {
  it("are served at every screen's address, and asked for anew each time", async () => {
    for (const at of ["/", "/pieces/01950000-0000-7000-8000-000000000001", "/link"]) {
      const response = await served()(at);
      expect([response.status, response.headers.get("cache-control")]).toEqual([200, "no-cache"]);
      expect(await response.text()).toContain("<title>Layertrail</title>");
    }
  });

  it("bring files that are named by their content, kept for ever, each with its own type", async () => {
    const response = await served()("/assets/reader-1a2b.wasm");
    expect([response.headers.get("content-type"), response.headers.get("cache-control")]).toEqual([
      "application/wasm",
      "public, max-age=31536000, immutable",
    ]);
    expect((await response.arrayBuffer()).byteLength).toBe(4);
  });

  it("are not sent again to who has them", async () => {
    const first = await served()("/");
    const since = first.headers.get("last-modified") ?? "";
    expect((await served()("/", { headers: { "if-modified-since": since } })).status).toBe(304);
    const head = await served()("/", { method: "HEAD" });
    expect([head.status, await head.text()]).toEqual([200, ""]);
  });

  it("never bring a file from outside their folder, nor one that is not there", async () => {
    for (const at of [
      "/..%2fsecret.txt",
      "/assets/..%2f..%2fsecret.txt",
      "/%2e%2e/secret.txt",
      "/none.js",
      "/%zz.js",
    ]) {
      const response = await served()(at);
      expect(response.status, at).toBe(404);
      expect(await response.text()).not.toContain("outside");
    }
  });

  it("carry the rule that only our own files run, and no other page may frame them", async () => {
    const { headers } = await served()("/");
    const policy = headers.get("content-security-policy") ?? "";
    expect(policy.split("; ")).toEqual(
      expect.arrayContaining([
        "default-src 'none'",
        "script-src 'self' 'wasm-unsafe-eval'",
        "base-uri 'none'",
        "form-action 'self'",
        "frame-ancestors 'none'",
      ]),
    );
    expect(policy).not.toMatch(/unsafe-inline|'unsafe-eval'|https?:|\*/);
    expect(headers.get("x-content-type-options")).toBe("nosniff");
    expect(headers.get("strict-transport-security")).toBeNull();
  });

  it("are held to https once they came by it", async () => {
    const response = await served({ isHttps: true })("/");
    expect(response.headers.get("strict-transport-security")).toBe("max-age=31536000");
  });
});
