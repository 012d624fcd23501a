import { z } from "@hono/zod-openapi";
import { findReady, PIECE_STATES, searchPieces } from "../../cases/find-pieces.ts";
import type { HolderQuestion } from "../../cases/holder-page.ts";
import { type MembersListed, readMembers, readPlaces, startOfDay } from "../../cases/list-holders.ts";
import { readMemberPage } from "../../cases/member-page.ts";
import { type NoPage, readPlacePage } from "../../cases/place-page.ts";
import type { MemberId, ModelId, PieceId, PlaceId } from "../../domain/ids.ts";
import { parseUuid } from "../../domain/ids.ts";
import type { MemberPage, PiecesFound, PlacePage } from "../../domain/page-views.ts";
import type { PlaceBrief } from "../../domain/scan-answer.ts";
import type { Instant } from "../../domain/time.ts";
import { defineRoute } from "../define-route.ts";
import { problem } from "../problem.ts";
import { shown } from "../shown.ts";
import { mustSee, viewerOf } from "../viewer-of.ts";
import { day, id, line, position } from "../wire.ts";

/** A page of a list, unless less is asked for. */
const PAGE = 50;
/** A page of what one holder has: a rack holds more than a screen, and nobody leafs through it. */
const HOLDER_PAGE = 100;

/** A page of members: all of them in every department but the largest, which ask on. */
const MEMBERS_PAGE = 2000;

function pageOf(most: number) {
  return z.coerce.number().int().min(1).max(most).optional().openapi({ type: "integer" });
}
const limit = pageOf(500);
const holderQuery = z.object({
  on: day.optional(),
  "known-at": position.optional(),
  after: id<PieceId>().optional(),
  limit,
});
const piecesQuery = z.object({
  q: line(200).optional(),
  kind: line(100).optional(),
  holder: id().optional(),
  member: id<MemberId>().optional(),
  model: line(200)
    .optional()
    .openapi({ description: "The id of a row of the model table, or a model's name" }),
  size: line(100).optional(),
  state: z.enum([...PIECE_STATES, "ready"]).optional(),
  "last-seen-before": day.optional(),
  after: id<PieceId>().optional(),
  limit,
});

const pieces = shown<PiecesFound>("PiecesFound", "A page of pieces; `next` is where the next one begins.");
const placePage = shown<PlacePage>("PlacePage", "What a place holds now or held on a day.");
const memberPage = shown<MemberPage>(
  "MemberPage",
  "What a member has, the sets, standing holds, and who looked.",
);
const places = shown<{ readonly places: readonly PlaceBrief[] }>("Places", "Open places.");
const members = shown<MembersListed>(
  "Members",
  "A page of members by number, those who left last; `next` is where the next one begins.",
);

/** Lists and pages of who has what. */
export const pageRoutes = [
  defineRoute(
    {
      method: "get",
      path: "/api/pieces",
      roles: "signed in",
      summary: "Pieces by what is known of them, a page at a time",
      query: piecesQuery,
      answer: pieces,
    },
    async ({ query, session, services: { db } }) => {
      const { q, kind, holder, member, model, size, state, after } = query;
      const seenBefore = query["last-seen-before"];
      const viewer = viewerOf(session);
      const sought = {
        limit: query.limit ?? PAGE,
        ...(q === undefined ? {} : { text: q }),
        ...(kind === undefined ? {} : { kind }),
        ...(holder ? { holder } : {}),
        ...(member ? { member } : {}),
        ...(model === undefined ? {} : { model: modelSought(model) }),
        ...(size === undefined ? {} : { size }),
        ...(seenBefore ? { lastSeenBefore: (await startOfDay(db, seenBefore)) as Instant } : {}),
        ...(after ? { after } : {}),
      };
      if (state === "ready") return findReady(db, sought, viewer);
      return searchPieces(db, { ...sought, ...(state ? { state } : {}) }, viewer);
    },
  ),
  defineRoute(
    { method: "get", path: "/api/places", roles: "signed in", summary: "Open places", answer: places },
    async ({ services: { db } }) => ({ places: await readPlaces(db) }),
  ),
  defineRoute(
    {
      method: "get",
      path: "/api/places/{place}",
      roles: ["technician", "inspector", "program manager", "company officer", "reader"],
      summary: "What a place holds now, held on a day, or was known to hold",
      params: z.object({ place: id<PlaceId>() }),
      query: holderQuery,
      answer: placePage,
    },
    async ({ params: { place }, query, session, services: { db } }) => {
      await mustSee(db, session, { place });
      return pageOr(await readPlacePage(db, place, asked(query)), "No place has this id.");
    },
  ),
  defineRoute(
    {
      method: "get",
      path: "/api/members",
      roles: "signed in",
      summary: "Members by number, a page at a time",
      query: z.object({ after: id<MemberId>().optional(), limit: pageOf(MEMBERS_PAGE) }),
      answer: members,
    },
    async ({ query: { after, limit: most }, session, services: { db } }) =>
      readMembers(db, viewerOf(session), { limit: most ?? MEMBERS_PAGE, ...(after ? { after } : {}) }),
  ),
  defineRoute(
    {
      method: "get",
      path: "/api/members/{member}",
      roles: "signed in",
      summary: "What a member has; the look is written where somebody else looks",
      params: z.object({ member: id<MemberId>() }),
      query: holderQuery,
      answer: memberPage,
    },
    async ({ params: { member }, query, session, services: { db, now } }) => {
      const viewer = await mustSee(db, session, { member });
      const page = await readMemberPage(db, member, asked(query), viewer, now());
      return pageOr(page, "No member has this id.");
    },
  ),
] as const;

function modelSought(model: string): { readonly id: ModelId } | { readonly name: string } {
  const row = parseUuid(model) as ModelId | undefined;
  return row ? { id: row } : { name: model };
}

function asked(query: z.output<typeof holderQuery>): HolderQuestion {
  const { on, after } = query;
  const knownAt = query["known-at"];
  return {
    limit: query.limit ?? HOLDER_PAGE,
    ...(on ? { on } : {}),
    ...(knownAt === undefined ? {} : { knownAt }),
    ...(after ? { after } : {}),
  };
}

function pageOr<Page extends object>(page: Page | NoPage, nobody: string): Page {
  if (!("missing" in page)) return page;
  throw problem(
    "not-found",
    page.missing === "subject"
      ? `${nobody} Next: go back to the list.`
      : "The ledger has not come to this position. Next: ask without it for what is known now.",
  );
}
