import { z } from "@hono/zod-openapi";
import { readContaminants } from "../../cases/contaminants.ts";
import { listEvents, proposePieces, readEventPage } from "../../cases/event-page.ts";
import type {
  ContaminantsShown,
  EventListed,
  EventPage,
  HeldThen,
} from "../../domain/contamination/event-views.ts";
import { type EventId, type MemberId, parseUuid } from "../../domain/ids.ts";
import type { Role } from "../../domain/register/account.ts";
import { defineRoute } from "../define-route.ts";
import { problem } from "../problem.ts";
import { shown } from "../shown.ts";
import { viewerOf } from "../viewer-of.ts";
import { id, instant } from "../wire.ts";

/** A member sees that they were listed on their own page, and no list of others. */
const READS: readonly Role[] = ["technician", "inspector", "program manager", "company officer", "reader"];
const SCENE: readonly Role[] = ["technician", "inspector", "program manager", "company officer"];

const events = shown<{ readonly events: readonly EventListed[] }>(
  "Events",
  "Contamination events, newest first.",
);
const eventPage = shown<EventPage>(
  "EventPage",
  "Who and what was at an event and where it is now; members are named to those who need it, and the look is written.",
);
const held = shown<{ readonly members: readonly HeldThen[] }>("HeldThen", "What members held, by set.");
const contaminants = shown<ContaminantsShown>(
  "Contaminants",
  "What each kind of contaminant asks for, with the source of each value and every change.",
);

const memberIds = z
  .string()
  .max(20_000)
  .transform((text) => text.split(",").flatMap((one) => (parseUuid(one) as MemberId | undefined) ?? []))
  .openapi({ type: "string", description: "Ids of members, separated by commas" });

export const eventRoutes = [
  defineRoute(
    { method: "get", path: "/api/events", roles: READS, summary: "Contamination events", answer: events },
    async ({ services: { db } }) => ({ events: await listEvents(db) }),
  ),
  defineRoute(
    {
      method: "get",
      path: "/api/events/{event}",
      roles: READS,
      summary: "One contamination event; the look is written for each member on its list",
      params: z.object({ event: id<EventId>() }),
      answer: eventPage,
    },
    async ({ params: { event }, session, services: { db, now } }) => {
      const page = await readEventPage(db, event, viewerOf(session), now());
      if (page) return page;
      throw problem("not-found", "No event has this id. Next: go back to the list.");
    },
  ),
  defineRoute(
    {
      method: "get",
      path: "/api/held-then",
      roles: SCENE,
      summary: "What members held over an interval, by set: what they may have worn",
      query: z.object({ members: memberIds, from: instant, to: instant }),
      answer: held,
    },
    async ({ query: { members, from, to }, session, services: { db } }) => {
      const span = [new Date(from), new Date(to)] as const;
      return { members: await proposePieces(db, members, ...span, viewerOf(session)) };
    },
  ),
  defineRoute(
    {
      method: "get",
      path: "/api/contaminants",
      roles: "signed in",
      summary: "What each kind of contaminant asks for, and its history",
      answer: contaminants,
    },
    async ({ services: { db } }) => readContaminants(db),
  ),
] as const;
