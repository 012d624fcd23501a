import type { OpenAPIHono } from "@hono/zod-openapi";
import type { MiddlewareHandler } from "hono";
import { bodyLimit } from "hono/body-limit";
import { refuseAccess } from "./access.ts";
import type { HttpMethod, Route } from "./define-route.ts";
import { describeRoute } from "./describe-route.ts";
import { problem } from "./problem.ts";
import { readInput } from "./read-input.ts";
import type { AppContext, AppEnv, Services } from "./services.ts";

const BODY_LIMIT_BYTES = 1_048_576;

/** Puts declared routes on the application and into its OpenAPI document, and answers 405 for their other methods. */
export function mountRoutes(app: OpenAPIHono<AppEnv>, routes: readonly Route[], services: Services): void {
  const methodsAt = new Map<string, HttpMethod[]>();
  for (const route of routes) {
    const path = route.path.replaceAll(/\{(.+?)\}/g, ":$1");
    const known = methodsAt.get(path) ?? [];
    if (known.includes(route.method)) throw new Error(`${route.method} ${route.path} is declared twice.`);
    methodsAt.set(path, [...known, route.method]);
    app.openAPIRegistry.registerPath(describeRoute(route));
    app.on(route.method, path, checkAccess(route), limitBody(route), (context) =>
      run(route, context, services),
    );
  }
  for (const [path, methods] of methodsAt) {
    const allow = methods.map((method) => (method === "get" ? "GET, HEAD" : method.toUpperCase())).join(", ");
    app.all(path, () => {
      throw problem("method-not-allowed", `It takes ${allow}.`, { headers: { allow } });
    });
  }
}

/** A route that a bare badge may use for some bodies is decided once the body is read; nobody signed in is refused here. */
function checkAccess(route: Route): MiddlewareHandler<AppEnv> {
  return async (context, next) => {
    const refused = refuseAccess(route.badgeMay ? "badge ok" : route.roles, context.get("session"));
    if (refused) throw refused;
    await next();
  };
}

function limitBody(route: Route): MiddlewareHandler<AppEnv> {
  const maxSize = route.bodyLimitBytes ?? BODY_LIMIT_BYTES;
  return bodyLimit({
    maxSize,
    onError: () => {
      throw problem(
        "too-large",
        `At most ${Math.floor(maxSize / 1024)} KiB are taken at once. Next: send less.`,
      );
    },
  });
}

async function run(route: Route, context: AppContext, services: Services): Promise<Response> {
  const session = context.get("session");
  const input = await readInput(context, route);
  const refused = refuseAccess(route.roles, session);
  if (refused && !("body" in input && route.badgeMay?.(input.body))) throw refused;
  if ("faults" in input) {
    const places = input.faults.map(({ path, says }) => (path ? `${path}: ${says}` : says));
    throw problem("does-not-fit", places.join("; "), { faults: input.faults });
  }
  // Who may come in was checked above, so a route that needs somebody signed in has a session here.
  const answer = await route.handle({
    ...input,
    session: session as NonNullable<typeof session>,
    services,
    context,
  });
  if (answer instanceof Response) return answer;
  if (answer === undefined) return context.body(null, 204);
  return context.json(answer as object, 200, { "cache-control": "no-store" });
}
