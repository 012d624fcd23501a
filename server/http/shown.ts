import { z } from "@hono/zod-openapi";

/**
 * The schema of an answer whose shape is a type of the domain. The server makes such an answer from its own tables, so
 * nothing is checked at run time; the document says its name and what it is.
 */
export function shown<Shape>(name: string, description: string) {
  return z
    .custom<Shape>(() => true)
    .openapi(name, { type: "object", description, additionalProperties: true });
}
