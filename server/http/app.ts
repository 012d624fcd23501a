import { OpenAPIHono } from "@hono/zod-openapi";
import { ROUTES } from "./all-routes.ts";
import { answerFault } from "./answer-fault.ts";
import type { Route } from "./define-route.ts";
import { guardHost, guardOrigin } from "./guards.ts";
import { mountRoutes } from "./mount-routes.ts";
import { problem } from "./problem.ts";
import { securityHeaders } from "./security-headers.ts";
import { serveScreens } from "./serve-screens.ts";
import type { AppEnv, Services } from "./services.ts";
import { readSignedIn } from "./session-cookie.ts";

/** Builds the whole web application: guards, who is signed in, the routes, their description, and the screens. */
export function createApp(services: Services, routes: readonly Route[] = ROUTES): OpenAPIHono<AppEnv> {
  const app = new OpenAPIHono<AppEnv>();
  app.onError((fault) => answerFault(fault, services));
  app.use(securityHeaders(services), guardHost(services), guardOrigin(services));
  app.use("/api/*", readSignedIn(services));
  app.openAPIRegistry.registerComponent("securitySchemes", "session", {
    type: "apiKey",
    in: "cookie",
    name: "layertrail",
    description: "A session cookie; its name carries the department's id.",
  });
  mountRoutes(app, routes, services);
  app.get("/api/openapi.json", (context) => context.json(describe(app)));
  app.all("/api/*", () => {
    throw problem("not-found", "The address is not one of Layertrail's. Next: see /api/openapi.json.");
  });
  if (services.webDist) app.use(serveScreens(services.webDist));
  app.notFound(() => answerFault(problem("not-found", "There is nothing at this address."), services));
  return app;
}

function describe(app: OpenAPIHono<AppEnv>) {
  return app.getOpenAPI31Document({
    openapi: "3.1.0",
    info: {
      title: "Layertrail",
      version: "1",
      description: "Tags, label checks, custody and trail of turnout gear, for one department.",
      license: { name: "Apache-2.0", url: "https://www.apache.org/licenses/LICENSE-2.0" },
    },
  });
}
