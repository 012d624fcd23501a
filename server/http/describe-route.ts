import type { OpenAPIHono } from "@hono/zod-openapi";
import { z } from "@hono/zod-openapi";
import type { Route } from "./define-route.ts";

type Described = Parameters<OpenAPIHono["openAPIRegistry"]["registerPath"]>[0];

const problemSchema = z
  .object({
    type: z.string(),
    title: z.string(),
    status: z.int(),
    detail: z.string(),
    code: z.string(),
    refusals: z.array(z.looseObject({ code: z.string() })).optional(),
    names: z.record(z.string(), z.string()).optional(),
    faults: z
      .array(z.object({ in: z.enum(["params", "query", "body"]), path: z.string(), says: z.string() }))
      .optional(),
  })
  .openapi("Problem", { description: "RFC 9457 problem details" });

const problemAnswer = (description: string) => ({
  description,
  content: { "application/problem+json": { schema: problemSchema } },
});

/** Writes a declared route as OpenAPI 3.1 wants it. The roles stand in `x-roles`, since OpenAPI has no word for them. */
export function describeRoute(route: Route): Described {
  const { method, path, summary, params, query, body, answer } = route;
  const isOpen = route.roles === "anyone";
  return {
    method,
    path,
    summary,
    operationId: operationId(method, path),
    tags: [path.split("/")[2] ?? "api"],
    security: isOpen ? [] : [{ session: [] }],
    "x-roles": route.roles,
    request: {
      ...(params ? { params: params as z.ZodObject } : {}),
      ...(query ? { query: query as z.ZodObject } : {}),
      ...(body ? { body: { required: true, content: { "application/json": { schema: body } } } } : {}),
    },
    responses: {
      ...(answer
        ? { 200: { description: "Answered.", content: { "application/json": { schema: answer } } } }
        : route.answerType
          ? { 200: { description: "Answered.", content: { [route.answerType]: { schema: binary } } } }
          : { 204: { description: "Done." } }),
      ...(isOpen
        ? {}
        : { 401: problemAnswer("Nobody is signed in."), 403: problemAnswer("Not for this role.") }),
      ...(body || query || params ? { 422: problemAnswer("The request is not as it must be.") } : {}),
      default: problemAnswer("Not done; the problem says why and what next."),
    },
  };
}

const binary = z.string().openapi({ format: "binary" });

function operationId(method: string, path: string): string {
  const words = path
    .replace("/api/", "")
    .replaceAll(/[{}]/g, "")
    .split(/[/\-.]/);
  return method + words.map((word) => word.charAt(0).toUpperCase() + word.slice(1)).join("");
}
