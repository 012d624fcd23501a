import { z } from "@hono/zod-openapi";
import { changeEventAct, correctEventAct, openEventAct, ruleContaminantAct } from "../../cases/event-acts.ts";
import type { EventId, MemberId, PieceId, PlaceId } from "../../domain/ids.ts";
import { HOW_CLEANED } from "../../domain/pieces/piece-entries.ts";
import type { Role } from "../../domain/register/account.ts";
import { id, instant, line, note } from "../wire.ts";
import { defineAct } from "./act-routes.ts";

/** Who opens and corrects an event: the cage, and officers at the scene. */
const SCENE: readonly Role[] = ["technician", "inspector", "program manager", "company officer"];
const MANAGES: readonly Role[] = ["program manager"];
/** As many as one act takes; a station's turnout is far below it. */
const MOST = 500;

const code = z.string().regex(/^[a-z][a-z0-9-]{1,38}$/, "must be small letters, figures and hyphens");
const event = z.object({
  name: line(80),
  from: instant,
  to: instant,
  place: id<PlaceId>().exactOptional(),
  where: line(120).exactOptional(),
  incident: line(40).exactOptional(),
  kinds: z.array(code).min(1).max(12),
});
const members = z.array(z.object({ member: id<MemberId>(), set: line(60).exactOptional() })).max(MOST);
const pieces = z
  .array(
    z.object({
      piece: id<PieceId>(),
      evidence: z.enum(["scanned", "typed", "described", "presumed"]),
    }),
  )
  .max(MOST);

function sourced<Says extends z.ZodType>(says: Says) {
  return z.object({
    says: says.nullable(),
    source: line(200),
    caution: line(300).exactOptional(),
    confirmed: z.boolean(),
  });
}
const yesOrNo = sourced(z.enum(["yes", "no"]));

export const EVENT_ACTS = [
  defineAct({
    command: "openEvent",
    summary:
      "Opens a contamination event with the members and pieces that were there, and puts the pieces on hold",
    roles: SCENE,
    schema: z.object({ id: id<EventId>(), event, members, pieces, note: note.exactOptional() }),
    act: openEventAct,
  }),
  defineAct({
    command: "changeEvent",
    summary: "Describes an event anew; its pieces and their holds follow",
    roles: SCENE,
    schema: z.object({ id: id<EventId>(), event, note: note.exactOptional() }),
    act: changeEventAct,
  }),
  defineAct({
    command: "correctEvent",
    summary: "Says who and what else was at an event, or was not",
    roles: SCENE,
    schema: z.object({
      event: id<EventId>(),
      members,
      pieces,
      notMembers: z.array(id<MemberId>()).max(MOST),
      notPieces: z.array(id<PieceId>()).max(MOST),
    }),
    act: correctEventAct,
  }),
  defineAct({
    command: "ruleContaminant",
    summary:
      "Sets what a kind of contaminant asks for and which cleanings end it, with the source of each value",
    roles: MANAGES,
    schema: z.object({
      rule: z.object({
        code,
        name: line(60),
        asks: z.object({
          isolate: yesOrNo,
          specialist: yesOrNo,
          "share a load": yesOrNo,
          dispose: yesOrNo,
        }),
        endedBy: sourced(z.array(z.enum(HOW_CLEANED)).max(HOW_CLEANED.length)),
        handling: sourced(line(300)).exactOptional(),
      }),
      note: note.exactOptional(),
    }),
    act: ruleContaminantAct,
  }),
];
