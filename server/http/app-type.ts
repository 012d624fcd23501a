import type { z } from "@hono/zod-openapi";
import type { HttpMethod, Route } from "./define-route.ts";
import type { ACCOUNT_ACTS } from "./routes/account-acts.ts";
import type { accountRoutes } from "./routes/accounts.ts";
import type { BAG_ACTS, bagRoutes } from "./routes/bag-routes.ts";
import type { BENCH_ACTS } from "./routes/bench-acts.ts";
import type { CLEANING_ACTS } from "./routes/cleaning-acts.ts";
import type { EVENT_ACTS } from "./routes/event-acts.ts";
import type { eventRoutes } from "./routes/event-routes.ts";
import type { healthRoutes } from "./routes/health.ts";
import type { importRoutes } from "./routes/imports.ts";
import type { jobRoutes } from "./routes/jobs.ts";
import type { linkRoutes } from "./routes/links.ts";
import type { listRoutes } from "./routes/list-routes.ts";
import type { machineRoutes } from "./routes/machine-routes.ts";
import type { pageRoutes } from "./routes/page-routes.ts";
import type { printRoutes } from "./routes/prints.ts";
import type { problemRoutes } from "./routes/problems.ts";
import type { queryRoutes } from "./routes/query-routes.ts";
import type { reassembleRoutes } from "./routes/reassemble-routes.ts";
import type { REGISTER_ACTS } from "./routes/register-acts.ts";
import type { SETTING_ACTS } from "./routes/setting-acts.ts";
import type { signInRoutes } from "./routes/sign-in.ts";
import type { symbolRoutes } from "./routes/symbols.ts";
import type { TAG_ACTS } from "./routes/tag-acts.ts";
import type { TRACE_ACTS, traceRoutes } from "./routes/trace-routes.ts";

export type { ProblemBody } from "./problem.ts";

type Acts =
  | (typeof ACCOUNT_ACTS)[number]
  | (typeof SETTING_ACTS)[number]
  | (typeof BENCH_ACTS)[number]
  | (typeof REGISTER_ACTS)[number]
  | (typeof TAG_ACTS)[number]
  | (typeof EVENT_ACTS)[number]
  | (typeof CLEANING_ACTS)[number]
  | (typeof TRACE_ACTS)[number]
  | (typeof BAG_ACTS)[number];
type Others =
  | (typeof healthRoutes)[number]
  | (typeof problemRoutes)[number]
  | (typeof signInRoutes)[number]
  | (typeof linkRoutes)[number]
  | (typeof jobRoutes)[number]
  | (typeof importRoutes)[number]
  | (typeof printRoutes)[number]
  | (typeof symbolRoutes)[number]
  | (typeof queryRoutes)[number]
  | (typeof reassembleRoutes)[number]
  | (typeof pageRoutes)[number]
  | (typeof listRoutes)[number]
  | (typeof machineRoutes)[number]
  | (typeof traceRoutes)[number]
  | (typeof eventRoutes)[number]
  | (typeof bagRoutes)[number]
  | (typeof accountRoutes)[number];

/** What a request of a route carries and what it is answered, as they are on the wire: instants and ids as text. */
export interface WireOf<Given extends Route> {
  readonly params: Given extends { readonly params?: infer Schema extends z.ZodType }
    ? z.input<Schema>
    : never;
  readonly query: Given extends { readonly query?: infer Schema extends z.ZodType } ? z.input<Schema> : never;
  readonly body: Given extends { readonly body?: infer Schema extends z.ZodType } ? z.input<Schema> : never;
  readonly answer: Given extends { readonly answer?: infer Schema extends z.ZodType }
    ? z.output<Schema>
    : never;
}

/** Every route by method and path, such as `Api["get"]["/api/me"]["answer"]`. */
export type Api = {
  readonly [Method in HttpMethod]: {
    readonly [Given in Extract<Acts | Others, { readonly method: Method }> as Given["path"]]: WireOf<Given>;
  };
};

/** Every command with what it carries: `ActCommands["movePieces"]`. */
export type ActCommands = {
  readonly [Given in Acts as Given["path"] extends `/api/acts/${infer Name}`
    ? Name
    : never]: WireOf<Given>["body"] extends {
    command: infer Command;
  }
    ? Command
    : never;
};

/** What an act is sent with, but for the command. */
export type ActEnvelopeOnWire = Omit<Api["post"]["/api/acts/openAccount"]["body"], "command">;
export type WrittenActOnWire = Api["post"]["/api/acts/openAccount"]["answer"];
export type MeOnWire = Api["get"]["/api/me"]["answer"];
