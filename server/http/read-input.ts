import type { z } from "@hono/zod-openapi";
import type { Route } from "./define-route.ts";
import { type InputFault, problem } from "./problem.ts";
import type { AppContext } from "./services.ts";

export interface ReadInput {
  readonly params: unknown;
  readonly query: unknown;
  readonly body: unknown;
}

/**
 * Parses what a route takes. Returns every fault of path, query and body at once; throws a problem only for a body
 * that is no JSON at all.
 */
export async function readInput(
  context: AppContext,
  route: Route,
): Promise<ReadInput | { readonly faults: readonly InputFault[] }> {
  const faults: InputFault[] = [];
  const parse = (part: InputFault["in"], schema: z.ZodType | undefined, value: unknown): unknown => {
    if (!schema) return undefined;
    const parsed = schema.safeParse(value);
    if (parsed.success) return parsed.data;
    for (const issue of parsed.error.issues) {
      faults.push({ in: part, path: issue.path.map(String).join("."), says: issue.message });
    }
    return undefined;
  };
  const input = {
    params: parse("params", route.params, context.req.param()),
    query: parse("query", route.query, context.req.query()),
    body: parse("body", route.body, route.body ? await readJson(context) : undefined),
  };
  return faults.length > 0 ? { faults } : input;
}

async function readJson(context: AppContext): Promise<unknown> {
  const text = await context.req.text();
  try {
    return JSON.parse(text);
  } catch {
    throw problem("malformed-json", "Next: send one JSON value.");
  }
}
