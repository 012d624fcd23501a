import { z } from "@hono/zod-openapi";
import { symbolOfNumber } from "../../../labels/draw/symbol-matrix.ts";
import { defineRoute } from "../define-route.ts";
import { tagNumber } from "../wire.ts";

/** A number's symbol never changes. */
const FOR_EVER = "private, max-age=31536000, immutable";

/** The symbols of numbers, so that screens draw them without an encoder of their own. */
export const symbolRoutes = [
  defineRoute(
    {
      method: "get",
      path: "/api/symbols/{number}",
      roles: "badge ok",
      summary: "The 16 × 16 Data Matrix of a number, a row of 0 and 1 for each row of modules; 1 is dark",
      params: z.object({ number: tagNumber }),
      answer: z.object({ rows: z.array(z.string()) }),
    },
    async ({ params: { number }, context }) => {
      const { size, dark } = symbolOfNumber(number);
      const rows = Array.from({ length: size }, (_, row) =>
        dark
          .slice(row * size, (row + 1) * size)
          .map((isDark) => (isDark ? "1" : "0"))
          .join(""),
      );
      return context.json({ rows }, 200, { "cache-control": FOR_EVER });
    },
  ),
] as const;
