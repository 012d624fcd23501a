import { z } from "@hono/zod-openapi";
import { isDatabaseThere } from "../../cases/database-handle.ts";
import { defineRoute } from "../define-route.ts";
import { problem } from "../problem.ts";

/** Whether the server and its database answer, for whoever starts and watches them. */
export const healthRoutes = [
  defineRoute(
    {
      method: "get",
      path: "/api/health",
      roles: "anyone",
      summary: "Says whether server and database answer",
      answer: z.object({ database: z.literal("there") }),
    },
    async ({ services }) => {
      if (await isDatabaseThere(services.db)) return { database: "there" as const };
      throw problem("database-away", "The database does not answer. Next: wait a moment and ask again.");
    },
  ),
] as const;
