import type { Route } from "./define-route.ts";
import { ACCOUNT_ACTS } from "./routes/account-acts.ts";
import { accountRoutes } from "./routes/accounts.ts";
import { BAG_ACTS, bagRoutes } from "./routes/bag-routes.ts";
import { BENCH_ACTS } from "./routes/bench-acts.ts";
import { CLEANING_ACTS } from "./routes/cleaning-acts.ts";
import { EVENT_ACTS } from "./routes/event-acts.ts";
import { eventRoutes } from "./routes/event-routes.ts";
import { healthRoutes } from "./routes/health.ts";
import { importRoutes } from "./routes/imports.ts";
import { jobRoutes } from "./routes/jobs.ts";
import { linkRoutes } from "./routes/links.ts";
import { listRoutes } from "./routes/list-routes.ts";
import { machineRoutes } from "./routes/machine-routes.ts";
import { pageRoutes } from "./routes/page-routes.ts";
import { printRoutes } from "./routes/prints.ts";
import { problemRoutes } from "./routes/problems.ts";
import { queryRoutes } from "./routes/query-routes.ts";
import { reassembleRoutes } from "./routes/reassemble-routes.ts";
import { REGISTER_ACTS } from "./routes/register-acts.ts";
import { SETTING_ACTS } from "./routes/setting-acts.ts";
import { signInRoutes } from "./routes/sign-in.ts";
import { symbolRoutes } from "./routes/symbols.ts";
import { TAG_ACTS } from "./routes/tag-acts.ts";
import { TRACE_ACTS, traceRoutes } from "./routes/trace-routes.ts";

/** Every route of the server. A family is one file with a list; it stands here once. */
export const ROUTES: readonly Route[] = [
  ...healthRoutes,
  ...problemRoutes,
  ...signInRoutes,
  ...linkRoutes,
  ...accountRoutes,
  ...jobRoutes,
  ...importRoutes,
  ...printRoutes,
  ...symbolRoutes,
  ...queryRoutes,
  ...reassembleRoutes,
  ...pageRoutes,
  ...listRoutes,
  ...machineRoutes,
  ...traceRoutes,
  ...eventRoutes,
  ...bagRoutes,
  ...ACCOUNT_ACTS,
  ...SETTING_ACTS,
  ...BENCH_ACTS,
  ...REGISTER_ACTS,
  ...TAG_ACTS,
  ...EVENT_ACTS,
  ...CLEANING_ACTS,
  ...TRACE_ACTS,
  ...BAG_ACTS,
];
