import { createReadStream } from "node:fs";
import { stat } from "node:fs/promises";
import { extname, join, normalize, sep } from "node:path";
import { Readable } from "node:stream";
import type { MiddlewareHandler } from "hono";
import type { AppEnv } from "./services.ts";

const MEDIA_TYPES: Readonly<Record<string, string>> = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".json": "application/json",
  ".map": "application/json",
  ".webmanifest": "application/manifest+json",
  ".wasm": "application/wasm",
  ".woff2": "font/woff2",
  ".woff": "font/woff",
  ".svg": "image/svg+xml",
  ".png": "image/png",
  ".ico": "image/x-icon",
  ".txt": "text/plain; charset=utf-8",
};
/** What the build names by its content never changes. */
const FOR_EVER = "public, max-age=31536000, immutable";

/** Serves the built screens. An address without a file's ending is a screen and gets the page that draws it. */
export function serveScreens(webDist: string): MiddlewareHandler<AppEnv> {
  return async (context, next) => {
    if (context.req.method !== "GET" && context.req.method !== "HEAD") return next();
    const path = decodePath(context.req.path);
    if (path === undefined) return next();
    const isScreen = extname(path) === "";
    const file = isScreen ? join(webDist, "index.html") : join(webDist, normalize(path));
    if (!file.startsWith(webDist + sep)) return next();
    const found = await stat(file).catch(() => undefined);
    if (!found?.isFile()) return next();
    const headers = {
      "content-type": MEDIA_TYPES[extname(file)] ?? "application/octet-stream",
      "content-length": String(found.size),
      "cache-control": path.startsWith("/assets/") ? FOR_EVER : "no-cache",
      "last-modified": found.mtime.toUTCString(),
    };
    if (context.req.header("if-modified-since") === headers["last-modified"]) {
      return context.body(null, 304, headers);
    }
    if (context.req.method === "HEAD") return context.body(null, 200, headers);
    return context.body(Readable.toWeb(createReadStream(file)) as ReadableStream, 200, headers);
  };
}

function decodePath(path: string): string | undefined {
  try {
    return decodeURIComponent(path);
  } catch {
    return undefined;
  }
}
