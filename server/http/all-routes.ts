import type { Route } from "./define-route.ts";
import { healthRoutes } from "./routes/health.ts";

/** Every route of the server. A family is one file with a list; it stands here once. */
export const ROUTES: readonly Route[] = [...healthRoutes];
