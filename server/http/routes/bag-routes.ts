import { z } from "@hono/zod-openapi";
import { makeBagsAct, openBagAct, packBagAct } from "../../cases/bag-acts.ts";
import { readBags } from "../../cases/bags.ts";
import type { BagShown } from "../../domain/custody/bag-views.ts";
import type { MemberId, PieceId, PlaceId } from "../../domain/ids.ts";
import type { Role } from "../../domain/register/account.ts";
import { defineRoute } from "../define-route.ts";
import { shown } from "../shown.ts";
import { viewerOf } from "../viewer-of.ts";
import { id, line } from "../wire.ts";
import { defineAct } from "./act-routes.ts";

const BENCH: readonly Role[] = ["technician", "inspector", "program manager"];
const SCENE: readonly Role[] = [...BENCH, "company officer"];

const bags = shown<{ readonly bags: readonly BagShown[] }>(
  "Bags",
  "Open bags, those that wait longest first.",
);

export const bagRoutes = [
  defineRoute(
    {
      method: "get",
      path: "/api/bags",
      roles: [...SCENE, "reader"],
      summary: "Open bags, with what waits in them since when",
      answer: bags,
    },
    async ({ session, services: { db } }) => ({ bags: await readBags(db, viewerOf(session)) }),
  ),
] as const;

export const BAG_ACTS = [
  defineAct({
    command: "packBag",
    summary: "Puts what a member held in a bag, presumed until it is opened; a bare badge is enough",
    roles: SCENE,
    schema: z.object({ bag: id<PlaceId>(), member: id<MemberId>(), set: line(60).exactOptional() }),
    act: packBagAct,
    badgeMay: () => true,
  }),
  defineAct({
    command: "openBag",
    summary: "Records what was scanned out of a bag: found, missing, strangers",
    roles: BENCH,
    schema: z.object({
      bag: id<PlaceId>(),
      found: z.array(z.object({ piece: id<PieceId>(), evidence: z.enum(["scanned", "typed"]) })).max(500),
    }),
    act: openBagAct,
  }),
  defineAct({
    command: "makeBags",
    summary: "Names bags by the next short numbers",
    roles: BENCH,
    schema: z.object({ bags: z.array(id<PlaceId>()).min(1).max(100), within: id<PlaceId>().exactOptional() }),
    act: makeBagsAct,
  }),
];
