import type { MiddlewareHandler } from "hono";
import type { AppEnv, Services } from "./services.ts";

/** Only our own files run; the decoder is WebAssembly; pictures and PDF frames may come from blobs. */
export const CONTENT_SECURITY_POLICY = [
  "default-src 'none'",
  "script-src 'self' 'wasm-unsafe-eval'",
  "style-src 'self'",
  "img-src 'self' blob:",
  "font-src 'self'",
  "connect-src 'self'",
  "worker-src 'self'",
  "media-src 'self'",
  "manifest-src 'self'",
  "frame-src 'self' blob:",
  "base-uri 'none'",
  "form-action 'self'",
  "frame-ancestors 'none'",
].join("; ");

/** A year, as RFC 6797 examples have it; sent over https alone. */
const HSTS = "max-age=31536000";

/** Puts the same headers on every answer, problems and files included. */
export function securityHeaders({ isHttps }: Services): MiddlewareHandler<AppEnv> {
  return async (context, next) => {
    await next();
    const { headers } = context.res;
    headers.set("content-security-policy", CONTENT_SECURITY_POLICY);
    headers.set("x-content-type-options", "nosniff");
    headers.set("referrer-policy", "no-referrer");
    headers.set("cross-origin-opener-policy", "same-origin");
    headers.set("permissions-policy", "camera=(self), microphone=(), geolocation=()");
    if (isHttps) headers.set("strict-transport-security", HSTS);
  };
}
