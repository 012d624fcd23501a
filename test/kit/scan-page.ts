import { existsSync, readFileSync, rmSync } from "node:fs";
import { mkdtemp } from "node:fs/promises";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { extname, join } from "node:path";
import { build } from "vite";

const CSP =
  "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; worker-src 'self'; connect-src 'self'; base-uri 'none'";
const TYPES: Readonly<Record<string, string>> = {
  ".html": "text/html",
  ".js": "text/javascript",
  ".wasm": "application/wasm",
};

/**
 * A page with only web/scan on it, built as the product is and served under the product's CSP. Files whose
 * extension is put into `missing` are answered with 404.
 */
export async function openScanPage(
  entry: string,
  body: string,
): Promise<{ url: string; close: () => Promise<void>; missing: Set<string> }> {
  const out = await mkdtemp(join(tmpdir(), "scan-page-"));
  await build({
    configFile: false,
    logLevel: "error",
    root: import.meta.dirname,
    base: "/",
    worker: { format: "es" },
    build: {
      outDir: out,
      emptyOutDir: true,
      assetsInlineLimit: 0,
      rollupOptions: { input: join(import.meta.dirname, entry), output: { entryFileNames: "page.js" } },
    },
  });
  const html = `<!doctype html><meta charset="utf-8"><title>scan page</title>${body}<script type="module" src="/page.js"></script>`;
  const missing = new Set<string>();
  const server = createServer((request, response) => {
    const path = new URL(request.url ?? "/", "http://localhost").pathname;
    const file = join(out, path);
    const type = TYPES[path === "/" ? ".html" : extname(path)];
    if (!type || missing.has(extname(path)) || (path !== "/" && !existsSync(file))) {
      response.writeHead(404).end();
      return;
    }
    response.writeHead(200, { "content-type": type, "content-security-policy": CSP });
    response.end(path === "/" ? html : readFileSync(file));
  });
  await new Promise<void>((done) => server.listen(0, "127.0.0.1", done));
  return {
    url: `http://127.0.0.1:${(server.address() as AddressInfo).port}/`,
    missing,
    close: async () => {
      server.closeAllConnections();
      await new Promise((done) => server.close(done));
      rmSync(out, { recursive: true });
    },
  };
}
