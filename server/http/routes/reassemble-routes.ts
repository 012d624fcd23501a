import { z } from "@hono/zod-openapi";
import { piecesOfLastLoad, readBenchList } from "../../cases/bench-list.ts";
import type { MachineId, PieceId } from "../../domain/ids.ts";
import type { BenchList, LastLoad } from "../../domain/reassemble/bench-list.ts";
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

const lastLoad = shown<LastLoad>("LastLoad", "The pieces of a machine's last load; none before its first.");

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
  defineRoute(
    {
      method: "get",
      path: "/api/machines/{machine}/last-load",
      roles: BENCH,
      summary: "The pieces of the load that a machine ran last",
      params: z.object({ machine: id<MachineId>() }),
      answer: lastLoad,
    },
    async ({ params: { machine }, services: { db } }) => ({ pieces: await piecesOfLastLoad(db, machine) }),
  ),
] as const;
