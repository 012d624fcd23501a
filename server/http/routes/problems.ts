import { z } from "@hono/zod-openapi";
import { defineRoute } from "../define-route.ts";
import { PROBLEMS, problem } from "../problem.ts";

const about = z.object({ type: z.string(), title: z.string(), status: z.int() });

/** What the type of a problem says, at the address that it is. Source: RFC 9457 section 3.1.1. */
export const problemRoutes = [
  defineRoute(
    {
      method: "get",
      path: "/api/problems/{code}",
      roles: "anyone",
      summary: "What a type of problem means",
      params: z.object({ code: z.string().max(100) }),
      answer: about,
    },
    async ({ params: { code } }) => {
      const type = `/api/problems/${code}`;
      if (code === "refused")
        return { type, title: "Not written: the record or a rule stands against it.", status: 409 };
      const known = Object.entries(PROBLEMS).find(([name]) => name === code)?.[1];
      if (known) return { type, ...known };
      throw problem("not-found", "There is no such type of problem.");
    },
  ),
] as const;
