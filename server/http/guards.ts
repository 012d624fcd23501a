import type { MiddlewareHandler } from "hono";
import { problem } from "./problem.ts";
import type { AppEnv, Services } from "./services.ts";

const SAFE_METHODS = new Set(["GET", "HEAD", "OPTIONS"]);

/** Lets through only requests for a host that is ours, so that no other name can be pointed at this server. */
export function guardHost({ hosts }: Services): MiddlewareHandler<AppEnv> {
  const ours = new Set(hosts.map((host) => host.toLowerCase()));
  return async (context, next) => {
    const host = hostOf(context.req.raw);
    if (!ours.has(withoutPort(host))) {
      throw problem(
        "unknown-host",
        "This server does not answer to that host name. Next: use the address it printed.",
      );
    }
    await next();
  };
}

/**
 * Lets an unsafe request through only with our own Origin and a JSON body: a form or script of another site can send
 * neither. A request without an Origin is refused too; every browser sends one with unsafe requests.
 * Source: Fetch standard, "append a request Origin header".
 */
export function guardOrigin({ isHttps }: Services): MiddlewareHandler<AppEnv> {
  return async (context, next) => {
    if (!SAFE_METHODS.has(context.req.method)) {
      const own = `${isHttps ? "https" : "http"}://${hostOf(context.req.raw)}`;
      if (context.req.header("origin")?.toLowerCase() !== own) {
        throw problem(
          "foreign-origin",
          "Only Layertrail's own pages may send this. Next: open the printed address.",
        );
      }
      const type = context.req.header("content-type")?.split(";")[0]?.trim().toLowerCase();
      if (type !== "application/json") {
        throw problem("not-json", "Next: send the body as application/json.");
      }
    }
    await next();
  };
}

function hostOf(request: Request): string {
  return (request.headers.get("host") ?? new URL(request.url).host).toLowerCase();
}

function withoutPort(host: string): string {
  return host.replace(/:\d+$/, "");
}
