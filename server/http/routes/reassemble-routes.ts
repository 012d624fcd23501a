import { z } from "@hono/zod-openapi";
import { readBenchList } from "../../cases/bench-list.ts";
import type { PieceId } from "../../domain/ids.ts";
import type { BenchList } from "../../domain/reassemble/bench-list.ts";
import type { Role } from "../../domain/register/account.ts";
import { defineRoute } from "../define-route.ts";
import { shown } from "../shown.ts";
import { id } from "../wire.ts";

/** Who works at the bench. */
const BENCH: readonly Role[] = ["technician", "inspector", "program manager"];
/** Five hundred shells with their liners and DRDs: more than any bench has. */
const MOST_PIECES = 1500;

const benchList = shown<BenchList>(
  "BenchList",
  "What the record says of pieces on a bench: labels, needs, latest fittings, and partners that are not there.",
);

export const reassembleRoutes = [
  defineRoute(
    {
      method: "post",
      path: "/api/bench-list",
      roles: BENCH,
      summary:
        "What the record says of the pieces on a bench, so that the screen can plan which goes in which",
      body: z.object({ pieces: z.array(id<PieceId>()).max(MOST_PIECES) }),
      answer: benchList,
    },
    async ({ body: { pieces }, services: { db } }) => readBenchList(db, pieces),
  ),
] as const;
