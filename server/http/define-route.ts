import type { z } from "@hono/zod-openapi";
import type { Session } from "../cases/sessions.ts";
import type { Access } from "./access.ts";
import type { AppContext, Services } from "./services.ts";

export type HttpMethod = "get" | "post" | "put" | "delete";
type Schema = z.ZodType;

/** What a handler gets: the parsed parts of the request, who is signed in, and the services. */
export interface RouteInput<Params, Query, Body, Who> {
  readonly params: Params;
  readonly query: Query;
  readonly body: Body;
  readonly session: Who;
  readonly services: Services;
  readonly context: AppContext;
}

/** One route as it is declared: what it takes, what it answers, and who may use it. */
export interface RouteSpec<
  Method extends HttpMethod,
  Path extends string,
  Roles extends Access,
  Params extends Schema,
  Query extends Schema,
  Body extends Schema,
  Answer extends Schema,
> {
  readonly method: Method;
  /** In braces what varies: `/api/pieces/{id}`. */
  readonly path: Path;
  readonly roles: Roles;
  readonly summary: string;
  readonly params?: Params;
  readonly query?: Query;
  readonly body?: Body;
  /** Schema of the JSON answer. Left out for a route that answers 204 or a file; then name the file's type. */
  readonly answer?: Answer;
  readonly answerType?: string;
  /** How large a body may be; 1 MiB unless said otherwise. */
  readonly bodyLimitBytes?: number;
}

/** A declared route with its handler. The handler answers a value of `answer`, undefined (204), or a Response. */
export interface Route<
  Method extends HttpMethod = HttpMethod,
  Path extends string = string,
  Roles extends Access = Access,
  Params extends Schema = Schema,
  Query extends Schema = Schema,
  Body extends Schema = Schema,
  Answer extends Schema = Schema,
> extends RouteSpec<Method, Path, Roles, Params, Query, Body, Answer> {
  /** Says whether a bare badge, or a role that is not listed, may do it with exactly this body. */
  badgeMay?(body: z.output<Body>): boolean;
  handle(
    input: RouteInput<
      z.output<Params>,
      z.output<Query>,
      z.output<Body>,
      Roles extends "anyone" ? Session | undefined : Session
    >,
  ): Promise<z.input<Answer> | Response>;
}

/** Declares a route. Each family of routes is one file that exports a list of them; app.ts only puts the lists together. */
export function defineRoute<
  const Method extends HttpMethod,
  const Path extends string,
  const Roles extends Access,
  Params extends Schema = z.ZodUndefined,
  Query extends Schema = z.ZodUndefined,
  Body extends Schema = z.ZodUndefined,
  Answer extends Schema = z.ZodUndefined,
>(
  spec: RouteSpec<Method, Path, Roles, Params, Query, Body, Answer>,
  handle: Route<Method, Path, Roles, Params, Query, Body, Answer>["handle"],
  badgeMay?: (body: z.output<Body>) => boolean,
): Route<Method, Path, Roles, Params, Query, Body, Answer> {
  return { ...spec, handle, ...(badgeMay ? { badgeMay } : {}) };
}
