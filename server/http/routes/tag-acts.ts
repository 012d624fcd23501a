import { z } from "@hono/zod-openapi";
import {
  attachTagAct,
  changeTagAct,
  drawCardsAct,
  printTagsAct,
  reserveTagsAct,
} from "../../cases/tag-acts.ts";
import type { MemberId, PieceId, PlaceId } from "../../domain/ids.ts";
import type { Role } from "../../domain/register/account.ts";
import { id, line, tagNumber } from "../wire.ts";
import { defineAct } from "./act-routes.ts";

const BENCH: readonly Role[] = ["technician", "inspector", "program manager"];

export const TAG_ACTS = [
  defineAct({
    command: "reserveTags",
    summary: "Reserves numbers for one print run: spare tags, or one for each piece",
    roles: BENCH,
    schema: z
      .object({
        run: id(),
        spare: z.int().min(1).max(10_000).exactOptional(),
        pieces: z.array(id<PieceId>()).min(1).max(10_000).exactOptional(),
      })
      .refine(({ spare, pieces }) => (spare === undefined) !== (pieces === undefined), {
        message: "must have either spare or pieces",
      }),
    act: reserveTagsAct,
  }),
  defineAct({
    command: "printTags",
    summary: "Says that the labels of a run were printed",
    roles: BENCH,
    schema: z.object({ run: id() }),
    act: printTagsAct,
  }),
  defineAct({
    command: "attachTag",
    summary: "Brings a tag to life on a piece, scanned back from the finished label; may replace another",
    roles: BENCH,
    schema: z.object({
      piece: id<PieceId>(),
      number: tagNumber,
      position: line(20),
      proof: z.enum(["scanned", "typed"]),
      replaces: tagNumber.exactOptional(),
    }),
    act: attachTagAct,
  }),
  defineAct({
    command: "changeTag",
    summary: "Says that a tag was lost, found on its piece, destroyed, or is void",
    roles: BENCH,
    schema: z.object({
      number: tagNumber,
      to: z.enum(["lost", "found", "destroyed", "void"]),
      reason: line(200).exactOptional(),
    }),
    act: changeTagAct,
  }),
  defineAct({
    command: "drawCards",
    summary: "Gives places and members that have none a card with a number of its own",
    roles: BENCH,
    schema: z.object({
      places: z.array(id<PlaceId>()).max(2_000).exactOptional(),
      members: z.array(id<MemberId>()).max(20_000).exactOptional(),
    }),
    act: drawCardsAct,
  }),
];
